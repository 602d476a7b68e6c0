import { mechanismFromDocument } from '../document/units.ts';
import { writeDesign } from '../document/write-design.ts';
import { assessArchitecture } from '../kinematics/architecture.ts';
import { assessIndependence } from '../kinematics/independence.ts';
import { legStates } from '../kinematics/legs.ts';
import { buildableOutput } from './build-output.ts';
import { designVerb } from './design-verb.ts';
import { limitFindings, unreachable, verdictFindings } from './findings.ts';
import { done, refused } from './verb.ts';

/** Validates a design, prints it in its normal form, and looks for findings at home and for what keeps it from being built. */
export const check = designVerb({
  options: [],
  run(document) {
    const mechanism = mechanismFromDocument(document);
    const { home } = mechanism;
    const faults = unreachable(mechanism, home, 'home.position_mm', document.home.position_mm.join(', '));
    if (faults.length > 0) return refused(faults);
    const { verdict } = assessIndependence(mechanism, home, assessArchitecture(mechanism));
    const findings = [...limitFindings(legStates(mechanism, home), mechanism), ...verdictFindings(verdict)];
    return done(writeDesign(document), [
      ...findings.map((finding) => `At home: ${finding}`),
      ...buildableOutput(document, mechanism).findings,
    ]);
  },
});
