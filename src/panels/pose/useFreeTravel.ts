import { useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { compiledDesign, presentPose } from '../../document/compiled.ts';
import type { DesignDocument } from '../../document/design.ts';
import { type FreeTravelResult, freeTravel } from '../../kinematics/free-travel.ts';
import type { PoseAngles } from '../../kinematics/pose.ts';
import { liveDocument } from '../../state/design/design-store.ts';
import { designStore } from '../../state/stores.ts';
import { useJoggedPose } from '../pose-binding.ts';

/** The search takes some milliseconds, so it waits until nothing has moved for this long [ms]. */
const REST = 90;

interface Found {
  readonly document: DesignDocument;
  readonly pose: PoseAngles | null;
  readonly result: FreeTravelResult;
}

/** Free travel from the present pose, a moment after it came to rest; `stale` until then. */
export function useFreeTravel(): { readonly result: FreeTravelResult | null; readonly stale: boolean } {
  const document = useStore(designStore, liveDocument);
  const pose = useJoggedPose();
  const [found, setFound] = useState<Found | null>(null);
  useEffect(() => {
    const timer = setTimeout(() => {
      const { mechanism } = compiledDesign(document);
      setFound({ document, pose, result: freeTravel(mechanism, presentPose(document, pose)) });
    }, REST);
    return () => clearTimeout(timer);
  }, [document, pose]);
  return { result: found?.result ?? null, stale: found === null || found.document !== document || found.pose !== pose };
}
