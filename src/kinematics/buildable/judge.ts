import { segmentDistance } from '../../math/capsule.ts';
import type { ClearanceSpec } from '../keep-out.ts';
import { LEG_COUNT, type PlateName } from '../layout.ts';
import { newSegments, segmentOffset, writeSegments } from '../leg-bodies.ts';
import { writeLegs } from '../legs.ts';
import type { Mechanism } from '../mechanism.ts';
import { type Foot, footprintGap, holeWeb } from './footprints.ts';
import { leastSheetRoom } from './sheet.ts';
import { type BuildableSpec, METAL_EDGE, STEEPEST_OVERHANG } from './spec.ts';

/** What keeps a layout from being built, in the order in which the rules are listed. */
export const BUILD_RULES = [
  /** Joint bodies or brackets of two joints of one plate. */
  'jointsApart',
  /** The hole under a joint and the plate's rim, its opening, and the neighbouring hole of an indexed circle. */
  'holeToRim',
  'holeToOpening',
  'holesApart',
  /** A barrel over its own plate at its largest tilt. */
  'barrelOverPlate',
  /** Two legs at home. */
  'legsApart',
  /** The home pose within stroke and tilt, less what is kept in reserve. */
  'homeLength',
  'homeTilt',
  /** The actuator: twice the shortest length less the longest leaves room for its dead length. */
  'actuator',
  /** The plate and the sheet or bed it is made from. */
  'sheet',
  /** A tool over a bolt and the joints beside it. */
  'boltReach',
  /** The lean of a printed bracket. */
  'overhang',
] as const;

export type BuildRule = (typeof BUILD_RULES)[number];

/** One thing that must fit: by how many mm it does, or (below zero) does not. */
export interface BuildGap {
  readonly rule: BuildRule;
  /** Null where a rule concerns no plate, or no legs. */
  readonly plate: PlateName | null;
  /** Legs 1 to 6 that it is about, one or two. */
  readonly legs: readonly number[];
  /** [mm]; of an angle the length of leg that turns by it at home. */
  readonly gap: number;
}

/** Whether a layout can be built, and what stands in the way. */
export interface Buildable {
  readonly possible: boolean;
  /** The tightest of all. */
  readonly worst: BuildGap;
  /** The tightest of every rule that applies, tightest first. */
  readonly gaps: readonly BuildGap[];
}

/** Misses of no more than rounding [mm] at sizes of some hundred still fit. */
export const BUILD_SLACK = 1e-9;

/** Takes in every gap; `plate` and legs (0 to 5, or -1) name it. */
type Note = (rule: BuildRule, plate: PlateName | null, one: number, other: number, gap: number) => void;

const PLATES = ['base', 'platform'] as const;

/**
 * Judges layouts, one after the other: whether their parts fit together at home and on their plates. Says nothing of strength, and
 * nothing of the poses away from home.
 */
export class BuildJudge {
  private readonly vectors = new Float64Array(3 * LEG_COUNT);
  private readonly lengths = new Float64Array(LEG_COUNT);
  private readonly segments = newSegments();
  private readonly spans: Pick<ClearanceSpec, 'barrelLength' | 'jointZone'>;

  constructor(private readonly spec: BuildableSpec) {
    this.spans = { barrelLength: spec.barrelLength, jointZone: spec.jointZone };
  }

  /** The tightest gap [mm] alone, for many layouts. */
  gap(mechanism: Mechanism): number {
    let least = Number.POSITIVE_INFINITY;
    this.visit(mechanism, (_rule, _plate, _one, _other, gap) => {
      if (gap < least) least = gap;
    });
    return least;
  }

  /** All that there is to say. */
  judge(mechanism: Mechanism): Buildable {
    const tightest = new Map<BuildRule, BuildGap>();
    this.visit(mechanism, (rule, plate, one, other, gap) => {
      const known = tightest.get(rule);
      if (known && !(gap < known.gap)) return;
      const legs = [one, other].filter((leg) => leg >= 0).map((leg) => leg + 1);
      tightest.set(rule, { rule, plate, legs, gap });
    });
    const gaps = [...tightest.values()].sort((a, b) => a.gap - b.gap);
    const [worst] = gaps;
    return { possible: worst.gap >= -BUILD_SLACK, worst, gaps };
  }

  private visit(mechanism: Mechanism, note: Note): void {
    writeLegs(mechanism, mechanism.home, this.vectors, this.lengths);
    for (const plate of PLATES) this.visitPlate(mechanism, plate, note);
    this.visitLegs(mechanism, note);
    this.visitHome(mechanism, note);
    const { min, max } = mechanism.legs;
    note('actuator', null, -1, -1, 2 * min - max - this.spec.deadLength);
  }

  private visitPlate(mechanism: Mechanism, plate: PlateName, note: Note): void {
    const { spacing, printed, sheet } = this.spec;
    const { footprint, bolts, plate: body } = this.spec.mountings[plate];
    const centres = mechanism.centres[plate];
    if (footprint.kind === 'circle' && this.spec.mountings[plate].height === 0 && bolts === null) {
      // no feet beside their joints: without allocation, for sweeps
      for (let i = 0; i < LEG_COUNT; i++) {
        for (let j = i + 1; j < LEG_COUNT; j++) {
          const dx = centres[3 * j] - centres[3 * i];
          const dy = centres[3 * j + 1] - centres[3 * i + 1];
          note('jointsApart', plate, i, j, Math.sqrt(dx * dx + dy * dy) - footprint.diameter - spacing);
        }
      }
    } else {
      const feet = this.feetOf(mechanism, plate);
      for (let i = 0; i < LEG_COUNT; i++) {
        for (let j = i + 1; j < LEG_COUNT; j++)
          note('jointsApart', plate, i, j, footprintGap(footprint, feet[i], feet[j]) - spacing);
      }
      if (bolts) this.visitBolts(plate, feet, note);
    }
    this.visitHoles(mechanism, plate, note);
    if (sheet && body) note('sheet', plate, -1, -1, leastSheetRoom(body.diameter, sheet));
    if (!printed) return;
    const axes = plate === 'base' ? mechanism.baseAxes_B : mechanism.platformAxes_P;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const lean = Math.acos(Math.min(1, Math.abs(axes[3 * leg + 2])));
      note('overhang', plate, leg, -1, (STEEPEST_OVERHANG - lean) * this.lengths[leg]);
    }
  }

  /**
   * Where the mounts' axes come through the plates. The joint's centre stays where the design has it, so that the foot of a mount that
   * leans one way stands on the other side of it, by the height times the lean's tangent.
   */
  private feetOf(mechanism: Mechanism, plate: PlateName): readonly Foot[] {
    const { height } = this.spec.mountings[plate];
    const centres = mechanism.centres[plate];
    const axes = plate === 'base' ? mechanism.baseAxes_B : mechanism.platformAxes_P;
    return Array.from({ length: LEG_COUNT }, (_, leg) => {
      const i = 3 * leg;
      const upright = Math.abs(axes[i + 2]);
      const aside = upright > 0 ? height / upright : 0;
      const azimuth = Math.atan2(centres[i + 1], centres[i]);
      return { x: centres[i] - aside * axes[i], y: centres[i + 1] - aside * axes[i + 1], azimuth };
    });
  }

  /** A tool over each bolt must pass the bodies of the other joints. */
  private visitBolts(plate: PlateName, feet: readonly Foot[], note: Note): void {
    const { footprint, bolts } = this.spec.mountings[plate];
    if (!bolts) return;
    const tool = { kind: 'circle', diameter: bolts.tool } as const;
    const widest = footprint.kind === 'circle' ? footprint.diameter : Math.hypot(footprint.along, footprint.across);
    feet.forEach((foot, leg) => {
      for (let bolt = 0; bolt < bolts.count; bolt++) {
        const angle = foot.azimuth + (2 * Math.PI * bolt) / bolts.count;
        const at = {
          x: foot.x + (bolts.diameter / 2) * Math.cos(angle),
          y: foot.y + (bolts.diameter / 2) * Math.sin(angle),
          azimuth: angle,
        };
        feet.forEach((other, beside) => {
          if (beside === leg) return;
          note('boltReach', plate, leg, beside, footprintGap(tool, at, other) + (bolts.tool - widest) / 2);
        });
      }
    });
  }

  private visitHoles(mechanism: Mechanism, plate: PlateName, note: Note): void {
    const { hole, plate: body } = this.spec.mountings[plate];
    if (hole === 0) return;
    const centres = mechanism.centres[plate];
    const layout = mechanism.spec[plate];
    const thick = body?.thickness ?? 0;
    const edge = this.spec.metal ? METAL_EDGE * hole : Math.max(hole, thick);
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const away = Math.hypot(centres[3 * leg], centres[3 * leg + 1]);
      if (body) note('holeToRim', plate, leg, -1, body.diameter / 2 - away - hole / 2 - edge);
      if (body && body.opening > 0) note('holeToOpening', plate, leg, -1, away - body.opening / 2 - hole / 2 - edge);
    }
    const web = METAL_EDGE * hole;
    if (layout.kind === 'ring' && layout.ring.holes)
      note('holesApart', plate, -1, -1, holeWeb(layout.ring.radius, layout.ring.holes.count, hole) - web);
    else {
      for (let i = 0; i < LEG_COUNT; i++) {
        for (let j = i + 1; j < LEG_COUNT; j++) {
          const apart = Math.hypot(centres[3 * j] - centres[3 * i], centres[3 * j + 1] - centres[3 * i + 1]);
          note('holesApart', plate, i, j, apart - hole - web);
        }
      }
    }
  }

  /** Every two legs' true bodies at home, and every barrel over its own plate. */
  private visitLegs(mechanism: Mechanism, note: Note): void {
    const { segments, vectors, lengths, spans } = this;
    const { barrelDiameter, rodDiameter } = mechanism.legs;
    writeSegments(mechanism, spans, vectors, lengths, segments);
    const thickest = Math.max(barrelDiameter, rodDiameter);
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i < LEG_COUNT; i++) {
      for (let j = i + 1; j < LEG_COUNT; j++) {
        const whole = segmentDistance(segments, segmentOffset(i, 'whole'), segments, segmentOffset(j, 'whole'));
        // no part is nearer than the whole leg, and only the nearest pair of all counts
        if (whole - thickest >= least) continue;
        const gap = this.legGap(i, j, barrelDiameter, rodDiameter);
        if (gap >= least) continue;
        least = gap;
        note('legsApart', null, i, j, gap);
      }
    }
    const layout = mechanism.spec.base;
    const height = layout.kind === 'ring' ? layout.ring.jointHeight : 0;
    const axes = mechanism.baseAxes_B;
    const start = spans.jointZone.base;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const lean = Math.acos(Math.max(-1, Math.min(1, axes[3 * leg + 2])));
      const tilt = Math.min(Math.PI / 2, lean + mechanism.tiltLimit.base);
      const over = height + start * Math.cos(tilt) - (barrelDiameter / 2) * Math.sin(tilt);
      note('barrelOverPlate', 'base', leg, -1, over - this.spec.spacing);
    }
  }

  /** Gaps of all 15 pairs of legs at home, tightest first. */
  legGaps(mechanism: Mechanism): readonly BuildGap[] {
    const { barrelDiameter, rodDiameter } = mechanism.legs;
    writeLegs(mechanism, mechanism.home, this.vectors, this.lengths);
    writeSegments(mechanism, this.spans, this.vectors, this.lengths, this.segments);
    const gaps: BuildGap[] = [];
    for (let i = 0; i < LEG_COUNT; i++) {
      for (let j = i + 1; j < LEG_COUNT; j++)
        gaps.push({
          rule: 'legsApart',
          plate: null,
          legs: [i + 1, j + 1],
          gap: this.legGap(i, j, barrelDiameter, rodDiameter),
        });
    }
    return gaps.sort((a, b) => a.gap - b.gap);
  }

  private legGap(i: number, j: number, barrelDiameter: number, rodDiameter: number): number {
    const { segments: S } = this;
    const [iBarrel, jBarrel] = [segmentOffset(i, 'barrel'), segmentOffset(j, 'barrel')];
    const [iRod, jRod] = [segmentOffset(i, 'rod'), segmentOffset(j, 'rod')];
    const mixed = (barrelDiameter + rodDiameter) / 2;
    return Math.min(
      segmentDistance(S, iBarrel, S, jBarrel) - barrelDiameter,
      segmentDistance(S, iRod, S, jRod) - rodDiameter,
      segmentDistance(S, iBarrel, S, jRod) - mixed,
      segmentDistance(S, iRod, S, jBarrel) - mixed,
    );
  }

  private visitHome(mechanism: Mechanism, note: Note): void {
    const { strokeReserve, tiltReserve, mountTolerance } = this.spec;
    const { lengths, vectors } = this;
    const { legs, tiltLimit, baseAxes_B, platformAxes_P, home, crossJoints } = mechanism;
    const R = home.R_BP;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const i = 3 * leg;
      const size = lengths[leg];
      if (size === 0) {
        note('homeLength', null, leg, -1, -legs.min);
        continue;
      }
      note('homeLength', null, leg, -1, Math.min(size - legs.min, legs.max - size) - strokeReserve);
      const [x, y, z] = [vectors[i] / size, vectors[i + 1] / size, vectors[i + 2] / size];
      if (crossJoints.base === null) {
        const cosine = x * baseAxes_B[i] + y * baseAxes_B[i + 1] + z * baseAxes_B[i + 2];
        const tilt = Math.acos(Math.max(-1, Math.min(1, cosine)));
        note('homeTilt', 'base', leg, -1, (tiltLimit.base - tilt - tiltReserve - mountTolerance) * size);
      }
      if (crossJoints.platform === null) {
        const bx = R[0] * x + R[3] * y + R[6] * z;
        const by = R[1] * x + R[4] * y + R[7] * z;
        const bz = R[2] * x + R[5] * y + R[8] * z;
        const cosine = -(bx * platformAxes_P[i] + by * platformAxes_P[i + 1] + bz * platformAxes_P[i + 2]);
        const tilt = Math.acos(Math.max(-1, Math.min(1, cosine)));
        note('homeTilt', 'platform', leg, -1, (tiltLimit.platform - tilt - tiltReserve - mountTolerance) * size);
      }
    }
  }
}

/** Judges one layout. */
export const judgeBuildable = (mechanism: Mechanism, spec: BuildableSpec): Buildable =>
  new BuildJudge(spec).judge(mechanism);
