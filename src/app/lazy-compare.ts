import { lazy } from 'react';

/** The comparison, loaded when it is first opened. */
export const LazyCompareDialog = lazy(async () => ({
  default: (await import('./dialogs/CompareDialog.tsx')).CompareDialog,
}));
