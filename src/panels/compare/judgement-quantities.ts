import { compiledDesign } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import { type JudgementInputs, judgementInputs } from '../../document/judgement-inputs.ts';
import { assessAccuracy, boundedTranslation } from '../../kinematics/accuracy.ts';
import { assessClearance } from '../../kinematics/clearance.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { assessForces } from '../../kinematics/statics.ts';
import { assessStiffness } from '../../kinematics/stiffness.ts';
import { less, more, number, type Quantity, type Reading, WORST, words } from './compare-quantity.ts';
import type { ComparedFigures } from './compared-figures.ts';

const GROUP = 'Error, force, stiffness and clearance at home';

/** Reads from a design what its stated errors, load, springs and bodies come to; once for each design. */
function judged(read: (mechanism: Mechanism, inputs: JudgementInputs) => Reading) {
  const known = new WeakMap<DesignDocument, Reading>();
  return ({ design: { document } }: ComparedFigures): Reading => {
    let reading = known.get(document);
    if (!reading) {
      const { mechanism } = compiledDesign(document);
      reading = read(mechanism, judgementInputs(document, mechanism));
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
    read: judged((mechanism, { errors, assumed }) => {
      const report = assessAccuracy(mechanism, mechanism.home, errors);
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
    read: judged((mechanism, { load, assumed }) => {
      const report = assessForces(mechanism, mechanism.home, load);
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
    read: judged((mechanism, { stiffness, load }) => {
      if (!stiffness) return words('not stated');
      const report = assessStiffness(mechanism, mechanism.home, stiffness, load);
      return report.ok ? stated(report.value.weakestTranslation.stiffness, false) : singular();
    }),
    score: more,
    digits: 'figures',
  },
  {
    id: 'clearance',
    group: GROUP,
    name: 'Smallest clearance, mm',
    read: judged((mechanism, { clearance, assumed }) => {
      const report = assessClearance(mechanism, mechanism.home, clearance);
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
