export { DesignPanels } from './design/DesignPanels.tsx';
export const PosePanel = () => null;
export const LegTable = () => null;
export const VerdictStrip = () => null;
export const ComparePanel = () => null;
export const LooseMotionPanel = () => null;
