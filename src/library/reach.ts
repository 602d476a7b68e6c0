export { type LongWork, neverStop } from '../math/long-work.ts';
export { measureReach } from '../reach/columns/meter.ts';
export { reachOverTilt, type TiltedReach } from '../reach/columns/over-tilt.ts';
export { type ReachBox, type ReachMeasure, type ReachOptions, reachFromHome } from '../reach/columns/reach-measure.ts';
export { type UsableReach, usableReach } from '../reach/columns/usable.ts';
export { type ProofAnswer, type ProofReport, proveBox } from '../reach/prove/prove.ts';
