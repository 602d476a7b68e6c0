import { compiledDesign } from '../../document/compiled.ts';
import { FREEDOMS } from '../../kinematics/free-travel.ts';
import { VERDICT_WORDS } from '../../kinematics/verdict-word.ts';
import { boxFromHome, type ReachMeasure, reachFromHome } from '../../reach/columns/reach-measure.ts';
import { againstReach } from '../../reach/columns/usable-share.ts';
import { nearestBodies } from '../../state/design/nearest-bodies.ts';
import { degrees } from '../../terms/units.ts';
import { sentence } from '../../words/firmness.ts';
import { brokenLimits } from '../../words/limits.ts';
import { roundedText } from '../../words/numbers.ts';
import { holdWords } from '../../words/reach.ts';
import { less, more, number, type Quantity, type Reading, WORST, words } from './compare-quantity.ts';
import { type ComparedFigures, layoutOf } from './compared-figures.ts';
import { atHome, strokeAtHome, worstTilt } from './figures.ts';
import { JUDGEMENT_QUANTITIES } from './judgement-quantities.ts';
import { freedomUnit, travelFrom, travelText } from './travel-words.ts';

const nearMiddle = (share: number): number => -Math.abs(share - 50);

type Source = 'layout' | 'tilts';

/** Reads from what the workers found, or says why there is nothing to read. */
function fromReach(source: Source, read: (measure: ReachMeasure) => Reading) {
  return (column: ComparedFigures): Reading => {
    const outcome = column[source];
    if (outcome === null) return { kind: 'waiting' };
    if (outcome.kind === 'failed') return { kind: 'failed', reason: outcome.reason };
    return read('level' in outcome.value ? outcome.value.level : outcome.value);
  };
}

const MM3_PER_CM3 = 1e3;

const volume = (reach: ReachMeasure): Reading => number(reachFromHome(reach) / MM3_PER_CM3);

/** The usable share of the reach's finest measure, as in the verdict strip. */
function usable({ usable: outcome, layout }: ComparedFigures): Reading {
  if (outcome === null || layout === null) return { kind: 'waiting' };
  if (outcome.kind === 'failed') return { kind: 'failed', reason: outcome.reason };
  if (layout.kind === 'failed') return { kind: 'failed', reason: layout.reason };
  if (outcome.value.usable === 0) return words('nothing', WORST);
  return number(againstReach(outcome.value, reachFromHome(layout.value.level)).usable / MM3_PER_CM3);
}

const side = (axis: 0 | 1 | 2): Quantity => ({
  id: `box ${axis}`,
  group: 'Reach',
  name: `Box ${'xyz'[axis]}, mm`,
  read: fromReach('layout', (reach) => {
    const bounds = boxFromHome(reach);
    if (!bounds) return words('nothing', WORST);
    const length = bounds.high[axis] - bounds.low[axis];
    return number(length);
  }),
  score: more,
  digits: 1,
});

const factor = (value: number): Reading => number(value, ' ×');

/** Digits behind the point that {@link travelText} writes. */
const TRAVEL_DIGITS = 1;

const travel = (index: number): Quantity => {
  const freedom = FREEDOMS[index];
  return {
    id: `travel ${freedom}`,
    group: 'Free travel from home, one number at a time',
    name: `${sentence(freedom)}, ${freedomUnit(index)}`,
    read: (column) => {
      if (column.layout === null) return { kind: 'waiting' };
      if (column.layout.kind === 'failed') return { kind: 'failed', reason: column.layout.reason };
      const lines = layoutOf(column)?.lines;
      if (!lines) return words('home breaks limits', WORST);
      const { down, up } = travelFrom(lines[index], index);
      // the width between the ends as they are written
      const shown = (end: number) => Number(end.toFixed(TRAVEL_DIGITS));
      return { kind: 'number', number: shown(up) - shown(down), own: travelText(lines[index], index) };
    },
    score: more,
    digits: 1,
  };
};

const tilt = (end: 'baseTilt' | 'platformTilt', name: string): Quantity => ({
  id: end,
  group: 'Limits at home',
  name: `${name}, deg`,
  read: ({ design }) => {
    const angle = worstTilt(design.document, end);
    return number(angle);
  },
  score: less,
  digits: 1,
});

/** Everything that is compared, in the order of the table. */
export const QUANTITIES: readonly Quantity[] = [
  {
    id: 'level',
    group: 'Reach',
    name: 'At home orientation, cm³',
    read: fromReach('layout', volume),
    score: more,
    digits: 'figures',
  },
  {
    id: 'usable',
    group: 'Reach',
    name: 'Usable at home orientation, by its own floors, cm³',
    read: usable,
    score: more,
    digits: 'figures',
  },
  {
    id: 'tilted',
    group: 'Reach',
    name: ({ tiltRange, yawRange }) =>
      `At any tilt up to ${roundedText(degrees(tiltRange), 1)} deg${
        yawRange > 0 ? ` and yaw within ±${roundedText(degrees(yawRange), 1)} deg` : ''
      }, cm³ (orientations sampled)`,
    read: fromReach('tilts', volume),
    score: more,
    digits: 'figures',
  },
  {
    id: 'connected',
    group: 'Reach',
    name: 'Connected with home, %',
    read: fromReach('layout', ({ volume: all, home }) => {
      if (all === 0) return words('nothing', WORST);
      const share = (100 * home.volume) / all;
      return number(share);
    }),
    score: more,
    digits: 0,
  },
  side(0),
  side(1),
  side(2),
  {
    id: 'binding',
    group: 'Reach',
    name: 'Mostly stopped by',
    read: fromReach('layout', ({ boundary: { largest, byLimit } }) =>
      words(largest ? `${holdWords(largest)} (${(100 * byLimit[largest]).toFixed(0)} %)` : 'nothing'),
    ),
    score: null,
    digits: 0,
  },
  {
    id: 'firmness',
    group: 'Firmness at home',
    name: 'Verdict',
    read: ({ design }) => {
      const { word } = atHome(design.document).independence.verdict;
      return words(sentence(word), VERDICT_WORDS.indexOf(word));
    },
    score: null,
    digits: 0,
  },
  {
    id: 'smallest',
    group: 'Firmness at home',
    name: 'Firmness (1 / magnification)',
    read: ({ design }) => number(atHome(design.document).independence.firmness),
    score: more,
    digits: 'figures',
  },
  {
    id: 'magnification',
    group: 'Firmness at home',
    name: 'Magnification of errors in the legs',
    read: ({ design }) => factor(atHome(design.document).independence.magnification),
    score: less,
    digits: 'figures',
  },
  {
    id: 'condition',
    group: 'Firmness at home',
    name: 'Condition number',
    read: ({ design }) => {
      const { condition } = atHome(design.document).independence;
      return number(condition);
    },
    score: less,
    digits: 'figures',
  },
  {
    id: 'everywhere',
    group: 'Firmness at home',
    name: 'Singular at every pose',
    read: ({ design }) => {
      const { singularEverywhere } = compiledDesign(design.document).architecture;
      return words(singularEverywhere ? '✕ Yes' : 'No', singularEverywhere ? 1 : 0);
    },
    score: null,
    digits: 0,
  },
  {
    id: 'gapSum',
    group: 'Firmness at home',
    name: 'Sum of the pair gaps as built, deg (120: singular)',
    read: ({ design }) => {
      const { gapSum } = compiledDesign(design.document).architecture;
      return gapSum === null ? words('no such sum') : number(degrees(gapSum));
    },
    score: null,
    digits: 1,
  },
  {
    id: 'limits',
    group: 'Limits at home',
    name: 'Broken',
    read: ({ design }) => {
      const { mechanism } = compiledDesign(design.document);
      // bodies that meet count as one, as in the verdict
      const tooNear = nearestBodies(design.document, mechanism.home, false) ? 1 : 0;
      const count = brokenLimits(atHome(design.document).legs, mechanism).length + tooNear;
      return words(count === 0 ? 'None' : `▲ ${count}`, count);
    },
    score: null,
    digits: 0,
  },
  {
    id: 'stroke',
    group: 'Limits at home',
    name: 'Stroke used, leg furthest from the middle, %',
    read: ({ design }) => {
      const share = strokeAtHome(design.document);
      return number(share);
    },
    score: nearMiddle,
    digits: 0,
  },
  tilt('baseTilt', 'Largest tilt of a base joint'),
  tilt('platformTilt', 'Largest tilt of a platform joint'),
  ...JUDGEMENT_QUANTITIES,
  ...FREEDOMS.map((_, index) => travel(index)),
];
