import { inputsOf } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import type { JudgementInputs } from '../../document/judgement-inputs.ts';
import { boundedTranslation } from '../../kinematics/accuracy.ts';
import type { JudgedPose } from '../../kinematics/judge.ts';
import { judgePose } from '../../state/design/judged-pose.ts';
import { less, more, number, type Quantity, type Reading, WORST, words } from './compare-quantity.ts';
import type { ComparedFigures } from './compared-figures.ts';

const GROUP = 'Error, force, stiffness and clearance at home';

/** Reads from a design what its stated errors, load, springs and bodies come to at home; once for each design. */
function judged(read: (home: JudgedPose, assumed: JudgementInputs['assumed']) => Reading) {
  const known = new WeakMap<DesignDocument, Reading>();
  return ({ design: { document } }: ComparedFigures): Reading => {
    let reading = known.get(document);
    if (!reading) {
      reading = read(judgePose(document, null), inputsOf(document).assumed);
      known.set(document, reading);
    }
    return reading;
  };
}

/** Marks a value that rests on something the design does not state. */
const stated = (value: number, assumed: boolean) => number(value, assumed ? ' (assumed)' : '');

const singular = () => words('no bound here', WORST);

/** Rows of what the panel "Judge" states, at home; what is assumed there is assumed here and said so. */
export const JUDGEMENT_QUANTITIES: readonly Quantity[] = [
  {
    id: 'error',
    group: GROUP,
    name: 'Worst shift at the tool, mm',
    read: judged(({ mechanism, accuracy: report }, assumed) => {
      const shift = report.ok ? boundedTranslation(mechanism, report.value.worst) : null;
      return shift === null ? singular() : stated(shift, assumed.accuracy);
    }),
    score: less,
    digits: 'figures',
  },
  {
    id: 'force',
    group: GROUP,
    name: 'Largest leg force, N',
    read: judged(({ forces: report }, assumed) => {
      if (!report.ok) return singular();
      return stated(Math.max(...report.value.forces.map(Math.abs)), assumed.payload);
    }),
    score: less,
    digits: 'figures',
  },
  {
    id: 'stiffness',
    group: GROUP,
    name: 'Stiffness, weakest direction, N/mm',
    read: judged(({ stiffness: report }) => {
      if (!report) return words('not stated');
      return report.ok ? stated(report.value.weakestTranslation.stiffness, false) : singular();
    }),
    score: more,
    digits: 'figures',
  },
  {
    id: 'clearance',
    group: GROUP,
    name: 'Smallest clearance, mm',
    read: judged(({ clearance: report }, assumed) => {
      if (!report.ok) return words('not computed');
      const { smallest } = report.value;
      if (!smallest) return words('nothing can meet');
      return smallest.distance > 0
        ? stated(smallest.distance, assumed.plates)
        : words(`▲ ${smallest.a} meets ${smallest.b}`, WORST);
    }),
    score: more,
    digits: 'figures',
  },
];
