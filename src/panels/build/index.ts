export { Checklist } from './Checklist.tsx';
export { BuildDeskProvider } from './desk-context.ts';
export { Inputs } from './Inputs.tsx';
export { Preview } from './Preview.tsx';
