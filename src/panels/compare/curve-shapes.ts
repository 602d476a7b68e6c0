import { type ScaleLinear, type ScaleLogarithmic, scaleLinear, scaleLog } from 'd3-scale';
import { line } from 'd3-shape';
import type { ComparedColumn } from '../../jobs/compare-service.ts';
import { NEARLY_SINGULAR_MAGNIFICATION } from '../../kinematics/independence.ts';
import { type ComparedFigures, layoutOf } from './compared-figures.ts';
import { shownAmount } from './travel-words.ts';

/** One design's magnification along one number of the pose. */
export interface Curve {
  readonly letter: ComparedColumn;
  /** Distances from home [mm or deg], rising. */
  readonly offsets: readonly number[];
  /** Infinity where singular. */
  readonly magnifications: readonly number[];
}

/** The curves of all designs that have one. */
export function curvesOf(figures: readonly ComparedFigures[], index: number): readonly Curve[] {
  return figures.flatMap((column) => {
    const found = layoutOf(column)?.lines?.[index];
    if (!found) return [];
    const offsets = Array.from(found.values, (value) => shownAmount(value - found.home, index));
    return [{ letter: column.design.letter, offsets, magnifications: Array.from(found.magnifications) }];
  });
}

/** Magnifications above this are not drawn: whatever is there is as good as singular. */
const HIGHEST_DRAWN = 100;

/** Room above the highest value drawn, as a factor. */
const HEADROOM = 1.25;

export interface CurveScales {
  readonly x: ScaleLinear<number, number>;
  readonly y: ScaleLogarithmic<number, number>;
}

/** Scales that hold all curves: distance from home, and magnification by its logarithm. */
export function curveScales(curves: readonly Curve[], width: number, height: number): CurveScales {
  const offsets = curves.flatMap((curve) => [curve.offsets[0], curve.offsets[curve.offsets.length - 1]]);
  const drawn = curves.flatMap((curve) => curve.magnifications).filter((value) => value <= HIGHEST_DRAWN);
  const low = Math.min(1, ...drawn);
  const high = Math.min(HIGHEST_DRAWN, HEADROOM * Math.max(NEARLY_SINGULAR_MAGNIFICATION, ...drawn));
  return {
    x: scaleLinear([Math.min(-1, ...offsets), Math.max(1, ...offsets)], [0, width]),
    y: scaleLog([low, high], [height, 0]),
  };
}

/** The path of a curve; broken where it leaves the top of the picture. */
export function curvePath({ offsets, magnifications }: Curve, { x, y }: CurveScales): string {
  const [, top] = y.domain();
  const draw = line<number>()
    .defined((_, i) => magnifications[i] <= top)
    .x((offset) => x(offset))
    .y((_, i) => y(magnifications[i]));
  return draw(offsets) ?? '';
}

/** Where along its curve each letter stands, as a share: apart from one another. */
const LETTER_PLACES: Readonly<Record<ComparedColumn, number>> = { a: 0.14, b: 0.34, c: 0.66, d: 0.86 };

/** Place of a curve's letter [px]; null where the curve is out of the picture there. */
export function letterPlace(curve: Curve, { x, y }: CurveScales): readonly [number, number] | null {
  const at = Math.round(LETTER_PLACES[curve.letter] * (curve.offsets.length - 1));
  const [, top] = y.domain();
  return curve.magnifications[at] <= top ? [x(curve.offsets[at]), y(curve.magnifications[at])] : null;
}

/** The magnification at a distance from home, interpolated between samples; null outside the free travel. */
export function magnificationAt({ offsets, magnifications }: Curve, offset: number): number | null {
  const last = offsets.length - 1;
  if (offset < offsets[0] || offset > offsets[last]) return null;
  const place = ((offset - offsets[0]) / (offsets[last] - offsets[0])) * last;
  const below = Math.min(last - 1, Math.floor(place));
  const share = place - below;
  if (share === 0) return magnifications[below];
  return magnifications[below] * (1 - share) + magnifications[below + 1] * share;
}
