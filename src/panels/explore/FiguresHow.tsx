import { FIGURE_NAMES, type FigureName } from '../../terms/figures.ts';
import { How } from '../../ui/How.tsx';
import { useExplore } from './desk-context.ts';
import { columnText } from './explore-numbers.ts';

/** How the figures of a layout come about, with the numbers of the one pointed at, or else of the design on screen. */
export function FiguresHow() {
  const row = useExplore((state) => state.pointed?.row ?? state.present?.row ?? null);
  const { tilt_deg, firmnessFloor, deadLength_mm } = useExplore((state) => state.setup);
  const now = (name: FigureName) => (row ? `: ${columnText(name, row[FIGURE_NAMES.indexOf(name)])}` : '');
  return (
    <How name="How the figures of a layout are computed">
      <p>
        Reach: ∫∫ (top − bottom) dx dy over upright columns, each cut by every leg’s and joint’s limit at the home
        orientation{now('reach')}. Tilt reach: the same, cut by each limit at its worst tilt of {tilt_deg} deg
        {now('tiltReach')}. Both on Gauss nodes about the axis; some tenths of a percent off.
      </p>
      <p>
        Firmness at home: σ₆ of J with its rotations divided by the characteristic length{now('homeFirmness')}, and
        condition σ₁ / σ₆{now('homeCondition')}. Over the reach, at some hundred poses: least σ₆{now('worstFirmness')},
        its mean by volume{now('meanFirmness')}, and the reach with σ₆ of {firmnessFloor} or more{now('usableReach')}.
      </p>
      <p>
        Leg force: the largest |f| with Jᵀ f = (0, 0, 1, 0, 0, 0), the load’s own weight at the tool point
        {now('forceFactor')}. Joint tilt: the largest angle between a leg and its mount axis{now('jointTilt')}. Spare
        stroke: twice the shortest leg less {deadLength_mm} mm and the longest{now('spareStroke')}.
      </p>
    </How>
  );
}
