export { DesignPanels } from './design/DesignPanels.tsx';
export { LegTable } from './legs/LegTable.tsx';
export { PosePanel } from './pose/PosePanel.tsx';
export { VerdictStrip } from './verdict/VerdictStrip.tsx';
