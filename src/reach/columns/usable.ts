import { determinantOf } from '../../kinematics/independence.ts';
import type { JudgementFault } from '../../kinematics/inverse-jacobian.ts';
import { jacobian } from '../../kinematics/jacobian.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { type LongWork, neverStop } from '../../math/long-work.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import type { Mat3 } from '../../math/rotation.ts';
import { boundWords, type Floor, QUANTITIES, type QuantityName } from '../../terms/quantities.ts';
import { FieldPoint } from '../field/field-point.ts';
import type { FieldSettings } from '../field/field-settings.ts';
import { largestEdge } from './bounding-box.ts';
import { ColumnLattice, type Footprint } from './column-lattice.ts';
import { Components } from './components.ts';
import { spacingFor } from './footprint.ts';
import { HomeParts, homePartOf, NO_PART } from './home-part.ts';
import { integrate } from './integration.ts';
import { FixedOrientation, type ReachProblem } from './problem.ts';
import { UsableCutter } from './usable-cutter.ts';

/** How one floor fares over the reach. */
export interface FloorReport {
  readonly floor: Floor;
  /** Share of the reach connected with home that meets it, sampled; 0 to 1. */
  readonly share: number;
  /** Best value found there, sampled, inner unit. */
  readonly best: number;
}

/** Why nothing is usable. */
export type UnusableReason =
  /** Nothing is reachable at this orientation. */
  | { readonly kind: 'noReach' }
  /** The home pose itself is singular, so it is on neither side. */
  | { readonly kind: 'homeSingular' }
  /** Nothing in the reach meets this floor. */
  | { readonly kind: 'floorNeverMet'; readonly floor: Floor; readonly best: number }
  /** Each floor is met somewhere, but home is not usable at this orientation. */
  | { readonly kind: 'homeNotUsable' }
  /** The only floor is met, but in a layer thinner than the sampling [mm]. */
  | { readonly kind: 'tooThin'; readonly floor: Floor; readonly step: number }
  /** No place meets all floors at once. */
  | { readonly kind: 'floorsNeverMetTogether' };

/** The usable positions of the tool point at one orientation. */
export interface UsableReach {
  /** Reachable from home [mm^3]: without islands, such as the platform below the base; all of the reach where home is not in it. */
  readonly reachable: number;
  /** Reachable, above every floor, on home's side of every singular pose, and connected with home [mm^3]; at most `reachable`. */
  readonly usable: number;
  /** The same without being connected with home, islands included [mm^3]. */
  readonly usableAnywhere: number;
  /** Of the usable volume, relative; of the integration alone, not of layers thinner than the sampling step. */
  readonly errorEstimate: number;
  readonly settled: boolean;
  /** Floors are sampled along columns at this distance [mm]. */
  readonly step: number;
  readonly floors: readonly FloorReport[];
  /** Share of the reach connected with home that is on home's side of the singular poses, sampled. */
  readonly homeSide: number;
  /** Null unless `usable` is 0. */
  readonly reason: UnusableReason | null;
}

export interface UsableOptions {
  /** Asked relative error of the volume. */
  readonly relativeError?: number;
  /** Most columns in one lattice. */
  readonly maxColumns?: number;
}

const DEFAULT_USABLE_ERROR = 0.01;
const DEFAULT_USABLE_COLUMNS = 8000;

/** The reachable volume is cut in closed form: so cheap that it is measured more finely than the usable one. */
const EXACT_ERROR = 0.004;
const EXACT_COLUMNS = 20_000;

/** Samples along the longest edge of the reach's box, or of that of home's part. */
const SAMPLES_ALONG = 48;

/**
 * Measures what is usable of the reach at one orientation: reachable, connected to home without crossing a singular pose,
 * and above every floor.
 */
export function usableReach(
  mechanism: Mechanism,
  R_BP: Mat3,
  settings: FieldSettings,
  floors: readonly Floor[],
  options: UsableOptions = {},
  work: LongWork = neverStop,
): Result<UsableReach, JudgementFault> {
  const bad = floors.find(({ value }) => !Number.isFinite(value));
  if (bad)
    return failed({ kind: 'input', message: `The floor for "${bad.quantity}" is ${bad.value}; it must be a number.` });
  const sign = Math.sign(determinantOf(jacobian(mechanism, mechanism.home)));
  const wanted = floors.map(({ quantity }) => quantity);
  // the determinant comes with the inverse, which condition asks for
  const point = FieldPoint.create(mechanism, R_BP, settings, [...new Set([...wanted, 'condition' as const])]);
  if (!point.ok) return point;
  const problem = new FixedOrientation().problem(mechanism, R_BP);
  if (!problem.possible || sign === 0 || mechanism.legs.min >= mechanism.legs.max)
    return ok(nothing(sign === 0 ? { kind: 'homeSingular' } : { kind: 'noReach' }));
  const { parts, footprint } = lookAt(problem);
  const step = sampledEdge(problem, parts) / SAMPLES_ALONG;
  const cutter = new UsableCutter(problem.cutter, point.value, floors, sign, step, parts);
  if (footprint && !work.shouldStop()) countShares(cutter, footprint);
  return ok(measure(problem, cutter, floors, reachVolume(problem, options, work), step, options, work));
}

/** Error and columns of the look that tells the parts of the reach apart. */
const LOOK_ERROR = 0.02;
const LOOK_COLUMNS = 3000;

interface Look {
  /** Null where home lies in no part, so that all count. */
  readonly parts: HomeParts | null;
  /** Null where nothing was met. */
  readonly footprint: Footprint | null;
}

/** The parts of the reach, and where in plan they lie. */
function lookAt(problem: ReachProblem): Look {
  const whole = { ...problem, symmetry: null };
  const lattice = new ColumnLattice();
  const { footprint } = integrate(whole, lattice, LOOK_ERROR, LOOK_COLUMNS);
  if (lattice.hits === 0) return { parts: null, footprint: null };
  const parts = new HomeParts(whole, lattice);
  return { parts: parts.found ? parts : null, footprint };
}

/** Columns over the whole reach that tell how much of it meets each floor. */
const SHARE_COLUMNS = 800;

/** Counts how much of the reach meets each floor: over all of it, however small the part is that the volume is then found in. */
function countShares(cutter: UsableCutter, footprint: Footprint): void {
  cutter.counting = true;
  new ColumnLattice().run(cutter, 2, footprint, spacingFor(footprint, SHARE_COLUMNS));
  cutter.counting = false;
}

/** Longest edge of the box that is sampled [mm]: of home's part where there are islands. */
function sampledEdge({ box }: ReachProblem, parts: HomeParts | null): number {
  const own = parts?.islands ? parts.bounds : null;
  return own ? Math.max(...own.high.map((end, axis) => end - own.low[axis])) : largestEdge(box);
}

function reachVolume(problem: ReachProblem, options: UsableOptions, work: LongWork): number {
  const lattice = new ColumnLattice();
  const error = Math.min(errorOf(options), EXACT_ERROR);
  integrate(problem, lattice, error, Math.max(columnsOf(options), EXACT_COLUMNS), work);
  if (lattice.hits === 0) return 0;
  const components = new Components();
  components.find(lattice, problem.cutter);
  const part = homePartOf(problem, lattice, components);
  return part === NO_PART ? lattice.volume() : components.length(lattice, part) * lattice.cellArea;
}

function measure(
  plain: ReachProblem,
  cutter: UsableCutter,
  floors: readonly Floor[],
  reachable: number,
  step: number,
  options: UsableOptions,
  work: LongWork,
): UsableReach {
  // loads and floors need not share the layout's symmetry
  const problem: ReachProblem = { ...plain, cutter, symmetry: null };
  const lattice = new ColumnLattice();
  const components = new Components();
  const { errorEstimate, settled } = integrate(problem, lattice, errorOf(options), columnsOf(options), work);
  const { length, met, best } = cutter;
  // what is usable meets every floor: no share can be smaller, whatever the samples missed
  const sharesFrom = (least: number) => {
    const share = (k: number) => Math.max(least, length > 0 ? met[k] / length : 0);
    const reports = floors.map((floor, n): FloorReport => ({ floor, share: share(n), best: best[n] }));
    return { reachable, step, floors: reports, homeSide: share(floors.length) };
  };
  if (lattice.hits === 0) {
    const shared = sharesFrom(0);
    return { ...nothing(whyNothing(reachable, shared.floors, step)), ...shared };
  }
  components.find(lattice, cutter);
  const part = homePartOf(problem, lattice, components);
  // both are integrated, each over columns of its own: the part must not come out larger than the whole
  const found = part === NO_PART ? 0 : components.length(lattice, part) * lattice.cellArea;
  const usable = Math.min(found, reachable);
  return {
    ...sharesFrom(reachable > 0 ? usable / reachable : 0),
    usable,
    usableAnywhere: lattice.volume() - (found - usable),
    errorEstimate,
    settled,
    reason: usable > 0 ? null : { kind: 'homeNotUsable' },
  };
}

function whyNothing(reachable: number, floors: readonly FloorReport[], step: number): UnusableReason {
  if (reachable === 0) return { kind: 'noReach' };
  const never = floors.find(({ share }) => share === 0);
  if (!never && floors.length === 1) return { kind: 'tooThin', floor: floors[0].floor, step };
  return never ? { kind: 'floorNeverMet', floor: never.floor, best: never.best } : { kind: 'floorsNeverMetTogether' };
}

const nothing = (reason: UnusableReason): UsableReach => ({
  reachable: 0,
  usable: 0,
  usableAnywhere: 0,
  errorEstimate: 0,
  settled: true,
  step: 0,
  floors: [],
  homeSide: 0,
  reason,
});

const errorOf = ({ relativeError }: UsableOptions): number => relativeError ?? DEFAULT_USABLE_ERROR;
const columnsOf = ({ maxColumns }: UsableOptions): number => maxColumns ?? DEFAULT_USABLE_COLUMNS;

const innerText = (quantity: QuantityName, value: number): string => {
  const { unit } = QUANTITIES[quantity];
  return `${Number(value.toPrecision(3))}${unit === '1' ? '' : ` ${unit}`}`;
};

/**
 * A reason in words.
 * @param text writes a value of a quantity with its unit; left out: inner units
 */
export function unusableWords(
  reason: UnusableReason,
  text: (quantity: QuantityName, value: number) => string = innerText,
): string {
  switch (reason.kind) {
    case 'noReach':
      return 'Nothing is reachable at this orientation.';
    case 'homeSingular':
      return 'The home pose is singular, so nothing lies on its side.';
    case 'floorsNeverMetTogether':
      return 'Each floor is met somewhere in the reach, but no position was found that meets all of them (sampled).';
    case 'tooThin': {
      const { quantity, value } = reason.floor;
      return `A ${QUANTITIES[quantity].words} of ${boundWords(quantity)} ${text(quantity, value)} is met only in a layer thinner than the ${Number(reason.step.toPrecision(2))} mm between samples, too thin to measure.`;
    }
    case 'homeNotUsable':
      return 'Positions that meet all floors exist, but the home position is not one of them at this orientation.';
    case 'floorNeverMet': {
      const { quantity, value } = reason.floor;
      const best = Number.isFinite(reason.best)
        ? `the best found is ${text(quantity, reason.best)}.`
        : 'every pose there is singular.';
      return `Nothing in the reach has a ${QUANTITIES[quantity].words} of ${boundWords(quantity)} ${text(quantity, value)}; ${best}`;
    }
  }
}
