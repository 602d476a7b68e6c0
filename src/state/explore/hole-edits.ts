import type { DesignDocument, RingDocument } from '../../document/design.ts';
import { spreadPairs, turnByHoles } from '../../document/edits/edit.ts';
import { mechanismFromDocument } from '../../document/units.ts';
import type { HoleChoice } from '../../explore/hole-choices.ts';
import { type Holes, holePoints } from '../../explore/hole-search.ts';
import { isRingSpec, type RingSpec } from '../../kinematics/dimensions.ts';
import type { HoleCircle, PlateName } from '../../kinematics/layout.ts';
import { degrees } from '../../terms/units.ts';

/** A design of two rings that both have hole circles. */
export interface HoleDesign {
  readonly design: RingSpec;
  readonly circles: Readonly<Record<PlateName, HoleCircle>>;
}

/** The hole circles of a design; null unless both plates are rings with holes. */
export function holeDesign(document: DesignDocument): HoleDesign | null {
  const { spec } = mechanismFromDocument(document);
  if (!isRingSpec(spec)) return null;
  const { holes: base } = spec.base.ring;
  const { holes: platform } = spec.platform.ring;
  return base && platform ? { design: spec, circles: { base, platform } } : null;
}

/** Digits behind the point of angles and places that were found by computing: rounding errors go. */
const KEPT_DECIMALS = 9;

const kept = (value: number): number => Number(value.toFixed(KEPT_DECIMALS)) + 0;

/** The design with its joints in chosen holes; the hole circles stay. */
export function withChoice(document: DesignDocument, choice: HoleChoice): DesignDocument {
  const { base, platform } = document;
  if (!('ring' in base) || !('ring' in platform)) return document;
  const ring = (own: RingDocument, gap: number, turn: number): RingDocument => ({
    ...own,
    gap_deg: kept(degrees(gap)),
    turn_deg: kept(degrees(turn)),
  });
  return {
    ...document,
    base: { ring: ring(base.ring, choice.baseGap, choice.baseTurn) },
    platform: { ring: ring(platform.ring, choice.platformGap, choice.platformTurn) },
  };
}

/** Short words for a choice: "Holes 20/25 deg, turn 5 deg". */
export function choiceLabel({ baseGap, platformGap, baseTurn, platformTurn }: HoleChoice): string {
  const number = (angle: number) => String(Number(degrees(angle).toFixed(2)) + 0);
  return `Holes ${number(baseGap)}/${number(platformGap)} deg, turn ${number(platformTurn - baseTurn)} deg`;
}

/** The eight steps from the present holes to the next ones. */
export function neighbouringChoices(
  document: DesignDocument,
): readonly { readonly name: string; readonly document: DesignDocument | null }[] {
  const changed = (next: DesignDocument) => (next === document ? null : next);
  return (['base', 'platform'] as const).flatMap((plate) => {
    const words = plate === 'base' ? 'Base' : 'Platform';
    return [
      { name: `${words} pairs one hole out`, document: changed(spreadPairs(document, plate, 1)) },
      { name: `${words} pairs one hole in`, document: changed(spreadPairs(document, plate, -1)) },
      { name: `${words} turned one hole on`, document: changed(turnByHoles(document, plate, 1)) },
      { name: `${words} turned one hole back`, document: changed(turnByHoles(document, plate, -1)) },
    ];
  });
}

/** The design with every joint in a hole of its own, as six free points on each plate. */
export function withSingleHoles(
  document: DesignDocument,
  { design, circles }: HoleDesign,
  base: Holes,
  platform: Holes,
): DesignDocument {
  const plate = (name: PlateName, holes: Holes) => {
    const flat = holePoints(design[name].ring.radius, circles[name], holes);
    const point = (leg: number) => [kept(flat[3 * leg]), kept(flat[3 * leg + 1]), kept(flat[3 * leg + 2])] as const;
    return { points_mm: [point(0), point(1), point(2), point(3), point(4), point(5)] as const };
  };
  return { ...document, base: plate('base', base), platform: plate('platform', platform) };
}
