import { Tabs } from 'radix-ui';
import { useDeferredValue, useEffect, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { compiledDesign } from '../../document/compiled.ts';
import { AddColumn } from '../../panels/compare/AddColumn.tsx';
import { CompareTable } from '../../panels/compare/CompareTable.tsx';
import { type ComparedFigures, layoutOf, useComparedFigures } from '../../panels/compare/compared-figures.ts';
import { FirmnessCurves } from '../../panels/compare/FirmnessCurves.tsx';
import { FreeTravelBars } from '../../panels/compare/FreeTravelBars.tsx';
import { ComparedViews } from '../../scene/compare/ComparedViews.tsx';
import type { ComparedDrawing } from '../../scene/compare/compared-drawing.ts';
import { STANDARD_ANGLES, type ViewAngles } from '../../scene/compare/turned-view.ts';
import { addCompared, firstChoice } from '../../state/compare/compare-store.ts';
import { liveDocument } from '../../state/design/design-store.ts';
import { compareStore, designStore, sessionStore } from '../../state/stores.ts';
import { useDesk } from '../files/desk-context.ts';
import styles from './compare.module.css';
import { DialogFrame } from './DialogFrame.tsx';

/** Up to four designs side by side: every verdict in a table, their reaches, their firmness and their free travel. */
export function CompareDialog() {
  // drawn in pieces behind the page, so that nothing else waits for it
  const figures = useDeferredValue(useComparedFigures(), NOTHING);
  useEffect(beginComparison, []);
  return (
    <DialogFrame
      wide
      title="Compare designs"
      description="Up to four designs, a to d. The open design and the pinned one are followed; the others stay as they were chosen."
    >
      <Bar />
      {figures.length === 0 ? (
        <NothingYet />
      ) : (
        <div className={styles['parts']}>
          <CompareTable figures={figures} />
          <Pictures figures={figures} />
        </div>
      )}
    </DialogFrame>
  );
}

function NothingYet() {
  const empty = useStore(compareStore, (state) => state.chosen.length === 0);
  return empty ? <p className={styles['nothing']}>Nothing is compared. Add a design.</p> : null;
}

const NOTHING: readonly ComparedFigures[] = [];

/** What an empty comparison starts with. */
function beginComparison(): void {
  if (compareStore.getState().chosen.length > 0) return;
  const { pinned } = sessionStore.getState();
  compareStore.setState({ chosen: firstChoice(liveDocument(designStore.getState()), pinned) });
}

/** Adds designs, and says whether their reaches are drawn in the view of the platform as well. */
function Bar() {
  const desk = useDesk();
  const overlaid = useStore(compareStore, (state) => state.overlaid);
  const [refusal, setRefusal] = useState<string | null>(null);
  const chooseFile = async () => {
    const chosen = await desk.choose();
    if (!chosen) return;
    const { fileName, design } = chosen;
    setRefusal(design.ok ? null : `${fileName} was not read: ${design.fault[0].message}`);
    if (design.ok) addCompared(compareStore, { source: 'file', title: fileName, document: design.value });
  };
  return (
    <div className={styles['bar']}>
      <AddColumn onChooseFile={() => void chooseFile()} />
      <label className={styles['switch']}>
        <input
          type="checkbox"
          checked={overlaid}
          onChange={(event) => compareStore.setState({ overlaid: event.target.checked })}
        />
        <span>Outlines in the view of the platform</span>
      </label>
      {refusal && (
        <p className={styles['refusal']} role="alert">
          ▲ {refusal}
        </p>
      )}
    </div>
  );
}

const PICTURES = [
  { id: 'overlaid', title: 'Reaches overlaid' },
  { id: 'step', title: 'Views in step' },
  { id: 'firmness', title: 'Firmness' },
  { id: 'travel', title: 'Free travel' },
] as const;

function Pictures({ figures }: { readonly figures: readonly ComparedFigures[] }) {
  const drawings = useMemo(() => figures.map(drawingOf), [figures]);
  // one eye for both kinds of picture
  const [angles, setAngles] = useState<ViewAngles>(STANDARD_ANGLES.isometric);
  const eye = { angles, onAngles: setAngles };
  const [tab, setTab] = useState<string>(PICTURES[0].id);
  // the tab itself at once, its picture when there is time
  const shown = useDeferredValue<string | null>(tab, null);
  return (
    <Tabs.Root className={styles['pictures']} value={tab} onValueChange={setTab}>
      <Tabs.List className={styles['tabs']} aria-label="Pictures of the comparison">
        {PICTURES.map(({ id, title }) => (
          <Tabs.Trigger key={id} value={id} className={styles['tab']}>
            {title}
          </Tabs.Trigger>
        ))}
      </Tabs.List>
      <Tabs.Content value="overlaid" className={styles['content']}>
        {shown === 'overlaid' ? <ComparedViews drawings={drawings} kind="overlaid" {...eye} /> : null}
      </Tabs.Content>
      <Tabs.Content value="step" className={styles['content']}>
        {shown === 'step' ? <ComparedViews drawings={drawings} kind="in step" {...eye} /> : null}
      </Tabs.Content>
      <Tabs.Content value="firmness" className={styles['content']}>
        {shown === 'firmness' ? <FirmnessCurves figures={figures} /> : null}
      </Tabs.Content>
      <Tabs.Content value="travel" className={styles['content']}>
        {shown === 'travel' ? <FreeTravelBars figures={figures} /> : null}
      </Tabs.Content>
    </Tabs.Root>
  );
}

const drawingOf = (column: ComparedFigures): ComparedDrawing => ({
  letter: column.design.letter,
  title: column.design.title,
  mechanism: compiledDesign(column.design.document).mechanism,
  shell: layoutOf(column)?.shell ?? null,
});
