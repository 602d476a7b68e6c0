import { lazy } from 'react';

// asked for at once, beside the page's own code, and shown when it is there
const arriving = import('../scene/Viewport.tsx');

/** The 3D view; its libraries are most of the program's bytes, so the rest of the page does not wait for them. */
export const LazyViewport = lazy(async () => ({ default: (await arriving).Viewport }));
