import { useId, useState } from 'react';
import { useStore } from 'zustand';
import { sayFirstView } from '../state/session/first-view.ts';
import { sessionStore } from '../state/stores.ts';
import { SceneCanvas } from './canvas/SceneCanvas.tsx';
import { DrawingBoundary } from './DrawingBoundary.tsx';
import { FlatDrawing } from './flat/FlatDrawing.tsx';
import { useLooseClock } from './loose-clock.ts';
import { Caption } from './overlay/Caption.tsx';
import { FieldBar } from './overlay/FieldBar.tsx';
import { LostBanner } from './overlay/LostBanner.tsx';
import { ReachLegend } from './overlay/ReachLegend.tsx';
import { TextAlternative } from './overlay/TextAlternative.tsx';
import { ToolBar } from './overlay/ToolBar.tsx';
import styles from './viewport.module.css';

/** The live drawing of the platform with its tools; fills its parent. */
export function Viewport() {
  const description = useId();
  const [solid, setSolid] = useState(true);
  const lost = useStore(sessionStore, ({ drawing }) => drawing === 'lost');
  const giveUp = () => setSolid(sayUnavailable());
  useLooseClock();
  return (
    <div className={styles['viewport']}>
      <div className={styles['sheet']}>
        <div className={styles['drawing']}>
          {solid && (
            <DrawingBoundary onFailure={giveUp}>
              <SceneCanvas describedBy={description} onUnavailable={giveUp} />
            </DrawingBoundary>
          )}
          {(!solid || lost) && <FlatDrawing />}
          <ToolBar solid={solid} />
          {lost && <LostBanner />}
        </div>
        {solid && !lost && <FieldBar />}
        <div className={styles['foot']}>
          <Caption />
          <ReachLegend solid={solid && !lost} />
        </div>
      </div>
      <TextAlternative id={description} />
    </div>
  );
}

/** Says that there is no WebGL. */
function sayUnavailable(): false {
  sessionStore.setState({ drawing: 'unavailable' });
  sayFirstView();
  return false;
}
