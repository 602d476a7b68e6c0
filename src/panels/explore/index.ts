export { ExploreDeskProvider, useExplore } from './desk-context.ts';
export { ExploreResults } from './ExploreResults.tsx';
export { FrontTable } from './FrontTable.tsx';
export { Readout } from './Readout.tsx';
export { TaskTabs } from './TaskTabs.tsx';
