import { useMemo } from 'react';
import { useStore } from 'zustand';
import type { PoseBox } from '../../reach/pose-box.ts';
import { proveDesk } from '../../state/judge/judging.ts';
import { proofBox } from '../../state/judge/prove-desk.ts';
import { useDesign } from '../design-binding.ts';
import { useJoggedPose } from '../pose-binding.ts';

/** The box that is set up for the design on screen; the same object for as long as the box stays as it is. */
export function useProofBox(): PoseBox {
  const half = useStore(proveDesk.store, ({ setup }) => setup.half);
  const around = useStore(proveDesk.store, ({ setup }) => setup.around);
  const document = useDesign((own) => own);
  const jogged = useJoggedPose();
  const pose = around === 'home' ? null : jogged;
  return useMemo(() => proofBox({ half, around }, document, pose), [half, around, document, pose]);
}
