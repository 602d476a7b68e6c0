import type { BrokenLimit } from '../kinematics/limit-margins.ts';
import type { Refutation } from '../reach/prove/prove-search.ts';
import { degrees } from '../terms/units.ts';
import { withMinus } from './numbers.ts';

/** How much a limit is passed by, to three figures: "leg 3 would be 2.10 mm too long". */
function limitWords({ limit, leg, excess }: BrokenLimit): string {
  const millimetres = excess.toPrecision(3);
  const turn = degrees(excess).toPrecision(3);
  switch (limit) {
    case 'legTooShort':
      return `leg ${leg} would be ${millimetres} mm too short`;
    case 'legTooLong':
      return `leg ${leg} would be ${millimetres} mm too long`;
    case 'baseJoint':
      return `the base joint of leg ${leg} would tilt ${turn} deg too far`;
    case 'platformJoint':
      return `the platform joint of leg ${leg} would tilt ${turn} deg too far`;
  }
}

/** What refutes a claim at a pose, without a full stop. */
export function refutationWords(reason: Refutation): string {
  switch (reason.kind) {
    case 'limit':
      return withMinus(limitWords(reason));
    case 'bodies': {
      const { pair, distance } = reason;
      if (!pair) return 'two bodies come too near to each other';
      return distance > 0
        ? `${pair.a} comes within ${withMinus(distance.toPrecision(3))} mm of ${pair.b}`
        : `${pair.a} meets ${pair.b}`;
    }
    case 'singular':
      return 'the legs stop being independent there';
  }
}
