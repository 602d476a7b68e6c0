import { compiledDesign } from '../../document/compiled.ts';
import { liveDocument } from '../../state/design/design-store.ts';
import { nearestBodies } from '../../state/design/nearest-bodies.ts';
import { designStore, sessionStore } from '../../state/stores.ts';
import { useDerived } from '../../state/use-derived.ts';
import { brokenLimits } from '../../words/limits.ts';
import { useDesign } from '../design-binding.ts';
import { judgementNow } from '../pose-binding.ts';

const STORES = [designStore, sessionStore] as const;

/** Bodies that meet or come nearer than the design asks at the present pose, in words. */
export const useTooNear = (): string | null => useDerived(STORES, tooNearNow);

const tooNearNow = (): string | null =>
  nearestBodies(liveDocument(designStore.getState()), judgementNow().pose, false)?.words ?? null;

let last: readonly string[] = [];

/** All that the present pose breaks: limits of legs and joints, and bodies too near to each other; the same list until it changes. */
export function brokenNow(): readonly string[] {
  const { mechanism } = compiledDesign(liveDocument(designStore.getState()));
  const { legs, joints } = judgementNow();
  const tooNear = tooNearNow();
  const broken = [...brokenLimits(legs, mechanism, joints), ...(tooNear ? [tooNear] : [])];
  if (broken.length !== last.length || broken.some((words, n) => words !== last[n])) last = broken;
  return last;
}

export const useBroken = (): readonly string[] => useDerived(STORES, brokenNow);

/** The two bodies that meet at home, in words, where no floor on clearance takes such poses out of the usable volume. */
export function useUncountedMeeting(): string | null {
  return useDesign((document) => {
    if (document.floors?.clearance_mm !== undefined) return null;
    const nearest = nearestBodies(document, compiledDesign(document).mechanism.home, false);
    return nearest?.state === 'meet' ? nearest.words : null;
  });
}
