import { later } from '../../later.tsx';

export const ComparePanel = later(async () => (await import('../../../panels/compare/ComparePanel.tsx')).ComparePanel);

export const CurvesPanel = later(async () => (await import('../../../panels/curves/CurvesPanel.tsx')).CurvesPanel);

export const HelpsPanel = later(async () => (await import('../../../panels/helps/HelpsPanel.tsx')).HelpsPanel);

export const JudgePanel = later(async () => (await import('../../../panels/judge/JudgePanel.tsx')).JudgePanel);

export const LengthsToPose = later(async () => (await import('../../../panels/pose/LengthsToPose.tsx')).LengthsToPose);

export const LooseMotionPanel = later(
  async () => (await import('../../../panels/motion/LooseMotionPanel.tsx')).LooseMotionPanel,
);

export const ProvePanel = later(async () => (await import('../../../panels/prove/ProvePanel.tsx')).ProvePanel);
