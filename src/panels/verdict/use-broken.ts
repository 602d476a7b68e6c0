import { compiledDesign } from '../../document/compiled.ts';
import { nearestBodies } from '../../state/design/nearest-bodies.ts';
import { brokenLimits } from '../../words/limits.ts';
import { useDesign } from '../design-binding.ts';
import { useJudgement } from '../pose-binding.ts';

/** Bodies that meet or come nearer than the design asks at the present pose, in words. */
export function useTooNear(): string | null {
  const document = useDesign((design) => design);
  const { pose } = useJudgement();
  return nearestBodies(document, pose, false)?.words ?? null;
}

/** All that the present pose breaks: limits of legs and joints, and bodies too near to each other. */
export function useBroken(): readonly string[] {
  const mechanism = useDesign((document) => compiledDesign(document).mechanism);
  const { legs, joints } = useJudgement();
  const tooNear = useTooNear();
  return [...brokenLimits(legs, mechanism, joints), ...(tooNear ? [tooNear] : [])];
}

/** The two bodies that meet at home, in words, where no floor on clearance takes such poses out of the usable volume. */
export function useUncountedMeeting(): string | null {
  return useDesign((document) => {
    if (document.floors?.clearance_mm !== undefined) return null;
    const nearest = nearestBodies(document, compiledDesign(document).mechanism.home, false);
    return nearest?.state === 'meet' ? nearest.words : null;
  });
}
