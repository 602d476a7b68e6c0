import { compiledDesign } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import { boxFromHome, type ReachMeasure, reachFromHome } from '../../reach/columns/reach-measure.ts';
import { judgePose } from '../../state/design/judged-pose.ts';
import { degrees } from '../../terms/units.ts';
import { sentence } from '../../words/firmness.ts';
import { figure } from '../../words/numbers.ts';
import { cm3Figure } from '../../words/reach.ts';

/** What is known of the reaches of one design; null while it is being computed. */
export interface Reaches {
  readonly level: ReachMeasure | null;
  readonly tilted: ReachMeasure | null;
}

/** One line of the comparison: both values in words, and what changed. */
export interface Line {
  readonly name: string;
  readonly pinned: string;
  readonly live: string;
  readonly difference: string;
}

/** A quantity to compare: its number where it has one, and how it is written. */
interface Quantity {
  readonly name: string;
  readonly number: (document: DesignDocument, reaches: Reaches) => number | null;
  readonly text: (value: number) => string;
  readonly difference: (pinned: number, live: number) => string;
}

const signed = (value: number, text: string): string => `${value > 0 ? '+' : value < 0 ? '−' : '±'}${text}`;

/** Change in percent of the pinned value; a change from nothing has none. */
function relative(pinned: number, live: number): string {
  if (pinned === live) return 'same';
  if (pinned === 0) return 'from nothing';
  const percent = (live / pinned - 1) * 100;
  return signed(percent, `${Math.abs(percent) < 10 ? Math.abs(percent).toFixed(1) : Math.abs(percent).toFixed(0)} %`);
}

/** Change in the quantity's own unit. */
const absolute =
  (decimals: number) =>
  (pinned: number, live: number): string => {
    // of the numbers as they are shown
    const change = Number(live.toFixed(decimals)) - Number(pinned.toFixed(decimals));
    const text = Math.abs(change).toFixed(decimals);
    return Number(text) === 0 ? 'same' : signed(change, text);
  };

/** A design judged at its own home pose. */
export const atHome = (document: DesignDocument) => judgePose(document, null);

const side = (axis: number, name: string): Quantity => ({
  name: `${name}, mm`,
  number: (_, { level }) => {
    const box = level && boxFromHome(level);
    return box && box.high[axis] - box.low[axis];
  },
  text: (value) => value.toFixed(1),
  difference: absolute(1),
});

/** The largest tilt at home of the six joints of one end [deg]. */
export const worstTilt = (document: DesignDocument, end: 'baseTilt' | 'platformTilt'): number =>
  degrees(Math.max(...atHome(document).legs.map((leg) => leg[end])));

/** Share of the stroke that is out at home, in the leg that is furthest from the middle. */
export function strokeAtHome(document: DesignDocument): number {
  const { min, max } = compiledDesign(document).mechanism.legs;
  const shares = atHome(document).legs.map(({ length }) => (length - min) / (max - min));
  return shares.reduce((worst, share) => (Math.abs(share - 0.5) > Math.abs(worst - 0.5) ? share : worst)) * 100;
}

const QUANTITIES: readonly Quantity[] = [
  {
    name: 'Reach at home, cm³',
    number: (_, { level }) => level && reachFromHome(level),
    text: cm3Figure,
    difference: relative,
  },
  {
    name: 'Reach at any tilt, cm³',
    number: (_, { tilted }) => tilted && reachFromHome(tilted),
    text: cm3Figure,
    difference: relative,
  },
  side(0, 'Box x'),
  side(1, 'Box y'),
  side(2, 'Box z'),
  {
    name: 'Firmness, 1 / magnification',
    number: (document) => atHome(document).independence.firmness,
    text: figure,
    difference: relative,
  },
  {
    name: 'Magnification',
    number: (document) => atHome(document).independence.magnification,
    text: (value) => (Number.isFinite(value) ? `${figure(value)} ×` : 'no bound'),
    difference: (pinned, live) =>
      Number.isFinite(pinned) && Number.isFinite(live)
        ? relative(pinned, live)
        : pinned === live
          ? 'same'
          : 'see verdict',
  },
  {
    name: 'Base tilt at home, deg',
    number: (document) => worstTilt(document, 'baseTilt'),
    text: (value) => value.toFixed(1),
    difference: absolute(1),
  },
  {
    name: 'Platform tilt at home, deg',
    number: (document) => worstTilt(document, 'platformTilt'),
    text: (value) => value.toFixed(1),
    difference: absolute(1),
  },
  {
    name: 'Stroke used at home, %',
    number: strokeAtHome,
    text: (value) => value.toFixed(0),
    difference: absolute(0),
  },
];

/** Pinned against live, quantity by quantity, both judged at their own home poses. */
export function comparison(
  pinned: DesignDocument,
  pinnedReaches: Reaches,
  live: DesignDocument,
  liveReaches: Reaches,
): readonly Line[] {
  const lines = QUANTITIES.map(({ name, number, text, difference }) => {
    const before = number(pinned, pinnedReaches);
    const now = number(live, liveReaches);
    return {
      name,
      pinned: before === null ? '…' : text(before),
      live: now === null ? '…' : text(now),
      difference: before === null || now === null ? '' : difference(before, now),
    };
  });
  const word = (document: DesignDocument) => sentence(atHome(document).independence.verdict.word);
  const [pinnedWord, liveWord] = [word(pinned), word(live)];
  const verdict = {
    name: 'Firmness',
    pinned: pinnedWord,
    live: liveWord,
    difference: pinnedWord === liveWord ? 'same' : 'changed',
  };
  return [...lines.slice(0, 5), verdict, ...lines.slice(5)];
}
