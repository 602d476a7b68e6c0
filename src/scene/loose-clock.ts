import { useEffect } from 'react';
import { useStore } from 'zustand';
import { sessionStore } from '../state/stores.ts';
import { REDUCED_MOTION } from './canvas/media.ts';

/** Time of one rock there and back [ms]. */
export const ROCK_TIME = 3200;

/** Longest step taken at once [ms]: after a pause in drawing the platform goes on from where it was. */
const LONGEST_STEP = 80;

/** Phase after some time, from 0 to 1 and again from 0. */
export const advancedPhase = (phase: number, elapsed: number): number =>
  (phase + Math.min(elapsed, LONGEST_STEP) / ROCK_TIME) % 1;

/** Moves the phase of the loosest motion on while it is shown and playing; never where reduced motion is wanted. */
export function useLooseClock(): void {
  const running = useStore(sessionStore, ({ looseMotion }) => looseMotion.shown && looseMotion.playing);
  useEffect(() => {
    if (!running || matchMedia(REDUCED_MOTION).matches) return;
    let last = performance.now();
    let request = requestAnimationFrame(function tick(now) {
      const elapsed = now - last;
      last = now;
      sessionStore.setState(({ looseMotion }) => ({
        looseMotion: { ...looseMotion, phase: advancedPhase(looseMotion.phase, elapsed) },
      }));
      request = requestAnimationFrame(tick);
    });
    return () => cancelAnimationFrame(request);
  }, [running]);
}
