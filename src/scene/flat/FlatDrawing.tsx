import { useState } from 'react';
import { useStore } from 'zustand';
import { compiledDesign } from '../../document/compiled.ts';
import { liveDocument } from '../../state/design/design-store.ts';
import { compareStore, designStore, resultsStore, sessionStore } from '../../state/stores.ts';
import { REDUCED_MOTION } from '../canvas/media.ts';
import { comparedShells } from '../model/compared-shells.ts';
import { PinnedShell } from '../model/pinned-shell.ts';
import { sceneView } from '../model/scene-view.ts';
import { useStale } from '../use-stale.ts';
import { FlatView } from './FlatView.tsx';
import styles from './flat.module.css';
import { FLAT_TITLES, FLAT_VIEWS } from './projection.ts';
import { sheetFor } from './sheet.ts';
import { usePanelSize } from './use-panel-size.ts';

/** The platform in plan and elevation: needs no WebGL. */
export function FlatDrawing() {
  const document = useStore(designStore, liveDocument);
  const session = useStore(sessionStore);
  const picture = useStore(resultsStore, (results) => results.picture);
  const [pinnedShell] = useState(() => new PinnedShell());
  const [panel, size] = usePanelSize();
  const { finished } = picture;
  const wanted = session.reachDrawing !== 'none';
  const reach = wanted ? (finished?.value.shell ?? null) : null;
  const kept = pinnedShell.follow(session.pinned, finished);
  const compare = useStore(compareStore);
  const compared = wanted ? comparedShells(compare, document, session.pinned) : [];
  const stale = useStale();
  const scene = sceneView(document, session, matchMedia(REDUCED_MOTION).matches);
  const { mechanism } = compiledDesign(document);
  return (
    <div className={styles['sheets']}>
      {FLAT_VIEWS.map((view, i) => (
        <figure key={view} className={styles['panel']}>
          <div ref={i === 0 ? panel : null} className={styles['frame']}>
            {size && (
              <FlatView
                view={view}
                scene={scene}
                sheet={sheetFor(mechanism, reach?.positions ?? null, view, size.width, size.height, scene.parts)}
                reach={reach}
                ghostReach={wanted && !session.hovered ? kept : null}
                compared={compared}
                stale={stale}
              />
            )}
          </div>
          <figcaption>{FLAT_TITLES[view]}</figcaption>
        </figure>
      ))}
    </div>
  );
}
