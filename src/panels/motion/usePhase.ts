import { useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { sessionStore } from '../../state/stores.ts';

/** How often the scrub slider follows a playing motion [ms]; the drawing itself follows every frame. */
const FOLLOW = 120;

/** Phase of the loosest motion, at a low rate while it plays and exactly while it rests. */
export function usePhase(): number {
  const resting = useStore(sessionStore, ({ looseMotion }) => (looseMotion.playing ? null : looseMotion.phase));
  const [followed, setFollowed] = useState(0);
  useEffect(() => {
    if (resting !== null) return;
    const timer = setInterval(() => setFollowed(sessionStore.getState().looseMotion.phase), FOLLOW);
    return () => clearInterval(timer);
  }, [resting]);
  return resting ?? followed;
}

const REDUCED = '(prefers-reduced-motion: reduce)';

/** Whether the system asks for little motion. */
export function useReducedMotion(): boolean {
  const [reduced, setReduced] = useState(() => window.matchMedia(REDUCED).matches);
  useEffect(() => {
    const query = window.matchMedia(REDUCED);
    const follow = () => setReduced(query.matches);
    query.addEventListener('change', follow);
    return () => query.removeEventListener('change', follow);
  }, []);
  return reduced;
}
