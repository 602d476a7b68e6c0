import { useCallback } from 'react';
import type { ObjectiveChoice } from '../../explore/table-front.ts';
import { AMOUNTS, columnWords, objective } from '../../state/explore/explore-columns.ts';
import { changeRange, changeView } from '../../state/explore/explore-store.ts';
import type { FigureName } from '../../terms/figures.ts';
import { Select } from '../../ui/Select.tsx';
import { useSize } from '../../ui/useSize.ts';
import { countText } from '../../words/amounts.ts';
import { ColumnSelect } from './ColumnSelect.tsx';
import controls from './controls.module.css';
import { useExplore, useExploreDesk } from './desk-context.ts';
import { kneeWords } from './knee-words.ts';
import { Picture } from './Picture.tsx';
import styles from './pictures.module.css';
import { ScatterPlot } from './ScatterPlot.tsx';

/** Two objectives against each other, with the layouts that nothing beats. */
export function Scatter() {
  const { explore, pointer } = useExploreDesk();
  const [box, { width, height }] = useSize<HTMLDivElement>();
  const scatter = useExplore((state) => state.pictures.scatter);
  const front = useExplore((state) => state.pictures.front);
  const present = useExplore((state) => state.present?.row ?? null);
  const pointed = useExplore((state) => state.pointed);
  const objectives = useExplore((state) => state.view.objectives);
  const onPoint = useCallback((index: number | null) => pointer.point(index), [pointer]);
  const onLoad = useCallback((index: number) => pointer.load(index), [pointer]);
  const onPointNear = useCallback((at: readonly [number, number]) => pointer.pointNear(at), [pointer]);
  return (
    <Picture title="Front" drawing={box} controls={<Objectives objectives={objectives} />}>
      <div ref={box} className={styles['drawing']}>
        {scatter && width > 0 ? (
          <ScatterPlot
            x={scatter.x}
            y={scatter.y}
            density={scatter.density}
            front={isFor(front?.objectives, scatter.x, scatter.y) ? front : null}
            present={present}
            pointed={pointed}
            width={width}
            height={height}
            onPoint={onPoint}
            onPointNear={onPointNear}
            onLoad={onLoad}
            onBrush={(x, y) => {
              changeRange(explore, scatter.x, x);
              changeRange(explore, scatter.y, y);
            }}
          />
        ) : null}
      </div>
      <p className={styles['words']}>
        <KneeWords /> <span>Darker: more layouts.</span>{' '}
        {scatter && scatter.density.beyond > 0 ? <BeyondWords count={scatter.density.beyond} /> : null}
      </p>
    </Picture>
  );
}

const isFor = (objectives: readonly ObjectiveChoice[] | undefined, x: FigureName, y: FigureName): boolean =>
  objectives?.[0]?.figure === x && objectives[1]?.figure === y;

function BeyondWords({ count }: { readonly count: number }) {
  return <span>{countText(count)} layouts lie beyond the axes.</span>;
}

function KneeWords() {
  const front = useExplore((state) => state.pictures.front);
  if (!front) return null;
  const [first, second] = front.objectives;
  if (front.count === 0) return <span>No layout passes the ranges yet.</span>;
  const size = front.count === 1 ? 'One layout is' : `${countText(front.count)} layouts are`;
  if (!front.knee || !first || !second) return <span>{size} beaten by none.</span>;
  return (
    <>
      <strong>{kneeWords(front.knee, first, second)}</strong> <span>{size} beaten by none.</span>
    </>
  );
}

/** The two or three objectives of the front. */
function Objectives({ objectives }: { readonly objectives: readonly ObjectiveChoice[] }) {
  const { explore } = useExploreDesk();
  const [first, second, third] = objectives;
  const change = (place: number, figure: FigureName) => {
    const same = objectives.findIndex((other) => other.figure === figure);
    const next = objectives.map((old, n) => (n === place ? objective(figure) : n === same ? objectives[place] : old));
    changeView(explore, { objectives: next });
  };
  const others = AMOUNTS.filter((name) => !objectives.slice(0, 2).some(({ figure }) => figure === name));
  if (!first || !second) return null;
  return (
    <>
      <ColumnSelect
        label="First objective"
        short
        value={first.figure}
        options={AMOUNTS}
        onChoose={(figure) => change(0, figure)}
      />
      <span className={controls['joint']}>against</span>
      <ColumnSelect
        label="Second objective"
        short
        value={second.figure}
        options={AMOUNTS}
        onChoose={(figure) => change(1, figure)}
      />
      <Select
        className={controls['select']}
        aria-label="Third objective"
        value={third?.figure ?? ''}
        onChange={(event) => {
          const chosen = others.find((name) => name === event.target.value);
          changeView(explore, { objectives: chosen ? [first, second, objective(chosen)] : [first, second] });
        }}
      >
        <option value="">and none</option>
        {others.map((name) => (
          <option key={name} value={name}>
            and {columnWords(name).short}
          </option>
        ))}
      </Select>
    </>
  );
}
