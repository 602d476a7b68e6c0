export { ComparePanel } from './compare/ComparePanel.tsx';
export { DesignPanels } from './design/DesignPanels.tsx';
export { JudgePanel } from './judge/JudgePanel.tsx';
export { LegTable } from './legs/LegTable.tsx';
export { LooseMotionPanel } from './motion/LooseMotionPanel.tsx';
export { PosePanel } from './pose/PosePanel.tsx';
export { VerdictStrip } from './verdict/VerdictStrip.tsx';
