import { memo, useMemo } from 'react';
import type { Histogram } from '../../explore/density.ts';
import { type ColumnName, isDimension, rangeNames } from '../../explore/layout-table.ts';
import { AMOUNTS, columnWords, YES_NO } from '../../state/explore/explore-columns.ts';
import { changeRange, changeView, SOUND_ONLY } from '../../state/explore/explore-store.ts';
import { Button } from '../../ui/Button.tsx';
import { NumberField } from '../../ui/NumberField.tsx';
import { useSize } from '../../ui/useSize.ts';
import { countText } from '../../words/amounts.ts';
import type { FieldUnit } from '../../words/units.ts';
import controls from './controls.module.css';
import { useExplore, useExploreDesk } from './desk-context.ts';
import { Picture } from './Picture.tsx';
import styles from './pictures.module.css';
import { RangeLines } from './RangeLines.tsx';

/** Every dimension and some figures side by side; a range on any of them filters all pictures. */
export function Ranges() {
  const { explore } = useExploreDesk();
  const [box, { width, height }] = useSize<HTMLDivElement>();
  const spread = useExplore((state) => state.pictures.spread);
  const ranges = useExplore((state) => state.view.ranges);
  const columns = spread?.columns ?? NO_COLUMNS;
  const limited = rangeNames(ranges).some((name) => !YES_NO.has(name));
  return (
    <Picture
      title="Ranges"
      drawing={box}
      controls={
        <>
          <Sound />
          {spread ? (
            <span className={controls['count']}>
              {countText(spread.passing)} of {countText(spread.known)} pass
            </span>
          ) : null}
          {limited ? (
            <Button onClick={() => changeView(explore, { ranges: soundOf(ranges) })}>Clear ranges</Button>
          ) : (
            <span className={controls['joint']}>drag on any picture to narrow them</span>
          )}
          <Key />
          <ShownFigures />
        </>
      }
    >
      <div className={styles['sideways']}>
        <div className={styles['axes']} style={{ minWidth: columns.length * NARROWEST }}>
          <div ref={box} className={styles['drawing']}>
            {width > 0 && columns.length > 0 ? <RangeLines columns={columns} width={width} height={height} /> : null}
          </div>
          <div
            className={styles['fields']}
            style={{ gridTemplateColumns: `repeat(${Math.max(1, columns.length)}, minmax(0, 1fr))` }}
          >
            {columns.map((column) => (
              <RangeFields key={column.name} column={column} range={ranges[column.name] ?? null} />
            ))}
          </div>
        </div>
      </div>
    </Picture>
  );
}

/** What the shades and lines stand for. */
const Key = () => (
  <span className={styles['key']} aria-hidden="true">
    <i className={styles['allSwatch']} /> all
    <i className={styles['passingSwatch']} /> pass
    <i className={styles['frontSwatch']} /> front
  </span>
);

/** Room that one axis needs [px]; a narrower screen scrolls them sideways. */
const NARROWEST = 66;

const NO_COLUMNS: readonly Histogram[] = [];

const soundOf = ({ buildable, homeReachable, singularEverywhere }: typeof SOUND_ONLY): typeof SOUND_ONLY => ({
  ...(buildable ? { buildable } : {}),
  ...(homeReachable ? { homeReachable } : {}),
  ...(singularEverywhere ? { singularEverywhere } : {}),
});

/** The yes-or-no filters. */
function Sound() {
  const { explore } = useExploreDesk();
  const ranges = useExplore((state) => state.view.ranges);
  const boxes = [
    { name: 'buildable', words: 'can be built' },
    { name: 'homeReachable', words: 'home can be reached' },
    { name: 'singularEverywhere', words: 'not singular everywhere' },
  ] as const;
  return boxes.map(({ name, words }) => (
    <label key={name} className={controls['check']}>
      <input
        type="checkbox"
        checked={ranges[name] !== undefined}
        onChange={(event) => changeRange(explore, name, event.target.checked ? (SOUND_ONLY[name] ?? null) : null)}
      />
      {words}
    </label>
  ));
}

/** Which figures stand beside the dimensions. */
function ShownFigures() {
  const { explore } = useExploreDesk();
  const figures = useExplore((state) => state.view.figures);
  return (
    <details className={controls['more']}>
      <summary>Figures</summary>
      <div className={controls['list']}>
        {AMOUNTS.map((name) => (
          <label key={name} className={controls['check']}>
            <input
              type="checkbox"
              checked={figures.includes(name)}
              onChange={(event) => {
                const shown = new Set(figures);
                if (event.target.checked) shown.add(name);
                else shown.delete(name);
                changeView(explore, { figures: AMOUNTS.filter((other) => shown.has(other)) });
              }}
            />
            {columnWords(name).name}
          </label>
        ))}
      </div>
    </details>
  );
}

interface RangeFieldsProps {
  readonly column: Histogram;
  readonly range: readonly [number, number] | null;
}

/** Lowest and highest value that is let through, typed. */
const RangeFields = memo(function RangeFields({ column, range }: RangeFieldsProps) {
  const { explore } = useExploreDesk();
  const { name, domain } = column;
  const { scale, name: title, unit } = columnWords(name);
  // an end that was not given is the axis's own, and beyond an open one everything
  const ends = useMemo(
    () => range ?? ([domain.low, domain.open ? Number.POSITIVE_INFINITY : domain.high] as const),
    [range, domain],
  );
  const shared = {
    unit: fieldUnit(name, unit),
    decimals: 0,
    legal: ANY,
    travel: {
      min: rounded(domain.low * scale),
      max: rounded(domain.high * scale),
      step: niceStep((domain.high - domain.low) * scale),
    },
    commit: nothing,
    restore: nothing,
  };
  const most = rounded(Math.min(ends[1], domain.high) * scale);
  const least = rounded(ends[0] * scale);
  const set = (low: number, high: number): string | null => {
    if (low > high) return 'The lower end is above the upper one.';
    changeRange(explore, name, [low, high]);
    return null;
  };
  return (
    <div className={styles['field']} data-limited={range !== null}>
      <i aria-hidden="true">≤</i>
      <NumberField {...shared} name={`${title}, at most`} value={most} preview={(high) => set(ends[0], high / scale)} />
      <i aria-hidden="true">≥</i>
      <NumberField {...shared} name={`${title}, at least`} value={least} preview={(low) => set(low / scale, ends[1])} />
    </div>
  );
});

const ANY = { min: -1e12, max: 1e12 };

const nothing = (): void => undefined;

/** Four digits; what rounding left of nothing is nothing. */
const rounded = (value: number): number => (Math.abs(value) < 1e-6 ? 0 : Number(value.toPrecision(4)));

/** About a fiftieth of an axis as a round number. */
function niceStep(span: number): number {
  if (!(span > 0)) return 1;
  return 10 ** Math.floor(Math.log10(span / 50));
}

const fieldUnit = (name: ColumnName, unit: string): FieldUnit =>
  isDimension(name) && (unit === 'deg' || unit === 'mm') ? unit : unit === 'deg' ? 'deg' : '';
