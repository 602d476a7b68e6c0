import { memo, useCallback, useMemo } from 'react';
import type { GridAxis } from '../../explore/grid.ts';
import { AMOUNTS, columnWords } from '../../state/explore/explore-columns.ts';
import { presentValues } from '../../state/explore/explore-layout.ts';
import { changeRange, changeView } from '../../state/explore/explore-store.ts';
import type { DimensionName } from '../../terms/dimensions.ts';
import { PairedNumber } from '../../ui/PairedNumber.tsx';
import { useSize } from '../../ui/useSize.ts';
import type { FieldUnit } from '../../words/units.ts';
import { useDesign } from '../design-binding.ts';
import { ColumnSelect } from './ColumnSelect.tsx';
import controls from './controls.module.css';
import { useExplore, useExploreDesk } from './desk-context.ts';
import { HeatPlot } from './HeatPlot.tsx';
import { Picture } from './Picture.tsx';
import styles from './pictures.module.css';

/** A figure over two of the dimensions that vary, with sliders for the others. */
export function HeatMap() {
  const { explore, pointer } = useExploreDesk();
  const [box, { width, height }] = useSize<HTMLDivElement>();
  const grid = useExplore((state) => state.run?.grid ?? null);
  const heat = useExplore((state) => state.pictures.heat);
  const singular = useExplore((state) => state.pictures.singular);
  const pointed = useExplore((state) => state.pointed?.index ?? null);
  const view = useExplore((state) => state.view);
  const document = useDesign((design) => design);
  const present = useMemo(() => dimensionValues(document), [document]);
  const onPoint = useCallback((index: number | null) => pointer.point(index), [pointer]);
  const onLoad = useCallback((index: number) => pointer.load(index), [pointer]);
  if (!grid) return null;
  const names = grid.map(({ name }) => name);
  const choose = (axis: 'heatX' | 'heatY', name: DimensionName) => {
    const other = axis === 'heatX' ? 'heatY' : 'heatX';
    // choosing what the other axis shows exchanges the two
    changeView(explore, view[other] === name ? { [axis]: name, [other]: view[axis] } : { [axis]: name });
  };
  const cuts = grid.filter(({ name, values }) => name !== view.heatX && name !== view.heatY && values.length > 1);
  return (
    <Picture
      title="Heat map"
      drawing={box}
      controls={
        <>
          <ColumnSelect
            label="Figure in colour"
            value={view.heatFigure}
            options={AMOUNTS}
            onChoose={(heatFigure) => changeView(explore, { heatFigure })}
          />
          <span className={controls['joint']}>over</span>
          <ColumnSelect
            label="Across"
            short
            value={view.heatX}
            options={names}
            onChoose={(name) => choose('heatX', name)}
          />
          <span className={controls['joint']}>×</span>
          <ColumnSelect
            label="Up"
            short
            value={view.heatY}
            options={names}
            onChoose={(name) => choose('heatY', name)}
          />
        </>
      }
    >
      <div ref={box} className={styles['drawing']}>
        {heat && width > 0 ? (
          <HeatPlot
            grid={grid}
            question={heat.question}
            slice={heat.slice}
            singular={singular}
            present={present}
            pointed={pointed}
            ranges={view.ranges}
            width={width}
            height={height}
            onPoint={onPoint}
            onLoad={onLoad}
            onBrush={(x, y) => {
              changeRange(explore, view.heatX, x);
              changeRange(explore, view.heatY, y);
            }}
          />
        ) : null}
      </div>
      {cuts.map((axis) => (
        <CutSlider key={axis.name} axis={axis} share={view.cuts[axis.name] ?? 0.5} />
      ))}
    </Picture>
  );
}

interface CutSliderProps {
  readonly axis: GridAxis;
  readonly share: number;
}

/** At which value of another dimension the heat map cuts; it takes the values that were measured. */
const CutSlider = memo(function CutSlider({ axis, share }: CutSliderProps) {
  const { explore } = useExploreDesk();
  const { name, values } = axis;
  const { scale } = columnWords(name);
  const last = values.length - 1;
  const low = values[0] * scale;
  const high = values[last] * scale;
  const step = (high - low) / last;
  const shown = Number((values[Math.round(share * last)] * scale).toPrecision(12));
  const preview = (value: number): null => {
    const cut = Math.round((value - low) / step) / last;
    changeView(explore, { cuts: { ...explore.getState().view.cuts, [name]: cut } });
    return null;
  };
  return (
    <div className={styles['cut']}>
      <PairedNumber
        name={`${columnWords(name).name} of the heat map`}
        label={columnWords(name).name}
        value={shown}
        unit={unitOf(name)}
        decimals={step < 1 ? 2 : 0}
        legal={{ min: Number(low.toPrecision(12)), max: Number(high.toPrecision(12)) }}
        travel={{
          min: Number(low.toPrecision(12)),
          max: Number(high.toPrecision(12)),
          step: Number(step.toPrecision(12)),
        }}
        preview={preview}
        commit={nothing}
        restore={nothing}
      />
    </div>
  );
});

const nothing = (): void => undefined;

const unitOf = (name: DimensionName): FieldUnit => {
  const { unit } = columnWords(name);
  return unit === 'deg' || unit === 'mm' ? unit : '';
};

/** The dimensions of a design in shown units. */
function dimensionValues(
  document: Parameters<typeof presentValues>[0],
): Readonly<Record<DimensionName, number>> | null {
  const values = presentValues(document);
  if (!values) return null;
  return {
    baseGap: values.baseGap_deg,
    platformGap: values.platformGap_deg,
    radiusRatio: values.radiusRatio,
    turn: values.turn_deg,
    homeHeight: values.homeHeight_mm,
    baseRadius: values.baseRadius_mm,
    platformRadius: values.platformRadius_mm,
    mountLean: values.mountLean_deg,
  };
}
