import type { DesignDocument } from '../document/design.ts';
import { type JudgementInputs, judgementInputs } from '../document/judgement-inputs.ts';
import { assessClearance } from '../kinematics/clearance.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import type { Mat3 } from '../math/rotation.ts';
import { type ReachMeasure, reachFromHome } from '../reach/columns/reach-measure.ts';
import { usableReach } from '../reach/columns/usable.ts';
import { againstReach } from '../reach/columns/usable-share.ts';
import type { Floor } from '../terms/quantities.ts';
import { floorName, floorValue, unusableText } from './floors.ts';
import { clearanceOutput } from './judgement-output.ts';

/** [mm^3] in a cm^3. */
const CUBIC_CENTIMETRE = 1000;

/** Bodies that meet at home: without a floor on clearance they take nothing away, which has to be said. */
const meetings = (mechanism: Mechanism, inputs: JudgementInputs): readonly string[] =>
  clearanceOutput({ clearance: assessClearance(mechanism, mechanism.home, inputs.clearance) }, inputs).findings.map(
    (finding) => `At home: ${finding} Only a floor on clearance leaves such poses out of the usable volume.`,
  );

/** What is usable of the reach at one orientation, which has been measured, with a finding when it is nothing. */
export function usableOutput(
  design: DesignDocument,
  mechanism: Mechanism,
  reach: ReachMeasure,
  R_BP: Mat3,
  floors: readonly Floor[],
) {
  const inputs = judgementInputs(design, mechanism);
  const { errors, stiffness, load, clearance, assumed } = inputs;
  const measured = usableReach(mechanism, R_BP, { errors, stiffness, load, clearance }, floors);
  if (!measured.ok) throw new Error(measured.fault.message);
  const usable = againstReach(measured.value, reachFromHome(reach));
  return {
    output: {
      usable_cm3: usable.usable / CUBIC_CENTIMETRE,
      usable: {
        reachable_cm3: usable.reachable / CUBIC_CENTIMETRE,
        anywhere_cm3: usable.usableAnywhere / CUBIC_CENTIMETRE,
        errorEstimate: usable.errorEstimate,
        settled: usable.settled,
        sampledEvery_mm: usable.step,
        homeSide: usable.homeSide,
        floors: usable.floors.map(({ floor, share, best }) => ({
          quantity: floorName(floor.quantity),
          value: floorValue(floor.quantity, floor.value),
          share,
          best: floorValue(floor.quantity, best),
        })),
        assumed,
      },
    },
    findings: [
      // without reach, or home out of it, there is a finding already
      ...(usable.reason && floors.length > 0 ? [`Nothing is usable: ${unusableText(usable.reason)}`] : []),
      ...(floors.some(({ quantity }) => quantity === 'clearance') ? [] : meetings(mechanism, inputs)),
    ],
  };
}
