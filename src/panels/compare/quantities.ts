import { degrees } from '../../document/units.ts';
import { FREEDOMS } from '../../kinematics/free-travel.ts';
import { VERDICT_WORDS } from '../../kinematics/verdict-word.ts';
import { boxFromHome, type ReachMeasure, reachFromHome } from '../../reach/reach-measure.ts';
import { compiledDesign } from '../../state/derived.ts';
import { nearestBodies } from '../../state/nearest-bodies.ts';
import { roundedText } from '../controls/number-text.ts';
import { brokenLimits } from '../limit-words.ts';
import { sentence } from '../verdict/firmness-words.ts';
import { cm3Figure, figure, holdWords } from '../verdict/reach-words.ts';
import { less, more, number, type Quantity, type Reading, WORST, words } from './compare-quantity.ts';
import { type ComparedFigures, layoutOf } from './compared-figures.ts';
import { atHome, strokeAtHome, worstTilt } from './figures.ts';
import { JUDGEMENT_QUANTITIES } from './judgement-quantities.ts';
import { freedomUnit, travelFrom, travelText } from './travel-words.ts';

const nearMiddle = (share: number): number => -Math.abs(share - 50);

const fixed = (decimals: number) => (value: number) => value.toFixed(decimals);

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

const volume = (reach: ReachMeasure): Reading => number(reachFromHome(reach), cm3Figure(reachFromHome(reach)));

const side = (axis: 0 | 1 | 2): Quantity => ({
  id: `box ${axis}`,
  group: 'Reach',
  name: `Box ${'xyz'[axis]}, mm`,
  read: fromReach('layout', (reach) => {
    const bounds = boxFromHome(reach);
    if (!bounds) return words('nothing', WORST);
    const length = bounds.high[axis] - bounds.low[axis];
    return number(length, length.toFixed(1));
  }),
  score: more,
  amount: fixed(1),
});

const factor = (value: number): Reading =>
  number(value, Number.isFinite(value) ? `${figure(value)} ×` : 'without bound');

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
      return number(up - down, travelText(lines[index], index));
    },
    score: more,
    amount: fixed(1),
  };
};

const tilt = (end: 'baseTilt' | 'platformTilt', name: string): Quantity => ({
  id: end,
  group: 'Limits at home',
  name: `${name}, deg`,
  read: ({ design }) => {
    const angle = worstTilt(design.document, end);
    return number(angle, angle.toFixed(1));
  },
  score: less,
  amount: fixed(1),
});

/** Everything that is compared, in the order of the table. */
export const QUANTITIES: readonly Quantity[] = [
  {
    id: 'level',
    group: 'Reach',
    name: 'At home orientation, cm³',
    read: fromReach('layout', volume),
    score: more,
    amount: cm3Figure,
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
    amount: cm3Figure,
  },
  {
    id: 'connected',
    group: 'Reach',
    name: 'Connected with home, %',
    read: fromReach('layout', ({ volume: all, home }) => {
      if (all === 0) return words('nothing', WORST);
      const share = (100 * home.volume) / all;
      return number(share, share.toFixed(0));
    }),
    score: more,
    amount: fixed(0),
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
    amount: String,
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
    amount: String,
  },
  {
    id: 'magnification',
    group: 'Firmness at home',
    name: 'Magnification of errors in the legs',
    read: ({ design }) => factor(atHome(design.document).independence.magnification),
    score: less,
    amount: figure,
  },
  {
    id: 'condition',
    group: 'Firmness at home',
    name: 'Condition number',
    read: ({ design }) => {
      const { condition } = atHome(design.document).independence;
      return number(condition, Number.isFinite(condition) ? figure(condition) : 'without bound');
    },
    score: less,
    amount: figure,
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
    amount: String,
  },
  {
    id: 'gapSum',
    group: 'Firmness at home',
    name: 'Sum of the pair gaps as built, deg (120: singular)',
    read: ({ design }) => {
      const { gapSum } = compiledDesign(design.document).architecture;
      return gapSum === null ? words('no such sum') : number(degrees(gapSum), roundedText(degrees(gapSum), 1));
    },
    score: null,
    amount: fixed(1),
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
    amount: String,
  },
  {
    id: 'stroke',
    group: 'Limits at home',
    name: 'Stroke used, leg furthest from the middle, %',
    read: ({ design }) => {
      const share = strokeAtHome(design.document);
      return number(share, share.toFixed(0));
    },
    score: nearMiddle,
    amount: fixed(0),
  },
  tilt('baseTilt', 'Largest tilt of a base joint'),
  tilt('platformTilt', 'Largest tilt of a platform joint'),
  ...JUDGEMENT_QUANTITIES,
  ...FREEDOMS.map((_, index) => travel(index)),
];
