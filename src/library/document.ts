export type { DesignDocument, PoseDocument } from '../document/design.ts';
export type { DesignFault, FaultReason } from '../document/faults.ts';
export { type JudgementInputs, judgementInputs } from '../document/judgement-inputs.ts';
export { readDesign, validateDesign } from '../document/read-design.ts';
export {
  readSweep,
  STANDARD_SWEEP,
  type SweepDocument,
  sweepAxes,
  sweepOptions,
  sweepSize,
  validateSweep,
} from '../document/sweep-file.ts';
export { sweptDesign } from '../document/swept-design.ts';
export { documentFromPose, mechanismFromDocument, poseFromDocument } from '../document/units.ts';
export { writeDesign } from '../document/write-design.ts';
export type { Result } from '../math/result.ts';
export { degrees, radians } from '../terms/units.ts';
