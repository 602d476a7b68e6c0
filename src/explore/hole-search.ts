import type { RingSpec } from '../kinematics/dimensions.ts';
import { type HoleCircle, jointAngles, LEG_COUNT, type PlateName } from '../kinematics/layout.ts';
import { compileMechanism, type MechanismSpec, type PlateLayout } from '../kinematics/mechanism.ts';
import { type Random, seededRandom } from '../math/random.ts';
import type { FigureName } from '../terms/figures.ts';
import { FIGURE_COUNT, type FigureOptions, LayoutFigures } from './layout-figures.ts';
import { type Bound, excessOf, type Goal, meritOf, namedFigures, noWorse } from './optimise.ts';

/** The hole of each joint, leg 1 to 6, counted counter-clockwise from the circle's start; may run past a full turn. */
export type Holes = readonly number[];

/** A search for single joints' holes, without any symmetry. Both rings have hole circles. */
export interface HoleSearch {
  readonly design: RingSpec;
  readonly circles: Readonly<Record<PlateName, HoleCircle>>;
  readonly goals: readonly Goal[];
  readonly bounds: readonly Bound[];
  readonly options: FigureOptions;
  readonly seed: number;
  /** Local optima to visit; each starts from the best one with some joints moved at random. */
  readonly rounds: number;
}

/** Both plates' holes and what they are worth. */
export interface HolesFound {
  readonly base: Holes;
  readonly platform: Holes;
  readonly figures: Readonly<Record<FigureName, number>>;
  readonly merit: number;
  readonly excess: number;
}

/** The search as far as it has come. */
export interface HoleSearchState {
  readonly start: HolesFound;
  readonly best: HolesFound;
  /** Merit and excess of the best layout after each round. */
  readonly trace: readonly { readonly merit: number; readonly excess: number }[];
  readonly round: number;
  readonly layoutsTried: number;
}

/** Steps of one joint that are tried, in holes. */
const STEPS = [1, -1, 2, -2, 4, -4] as const;

/** Joints moved at random before a new round. */
const KICKED_JOINTS = 3;

/** Farthest such a joint moves, as a share of the circle. */
const KICK_SHARE = 0.1;

/**
 * Iterated local search (H. Ramalhinho-Lourenco, O. Martin and T. Stuetzle, 2003: from memory): single joints step from hole to
 * hole while that helps, in an order drawn from the seed; then some joints of the best layout are moved at random and it
 * begins again. Legs keep their order around both plates and never share a hole. Yields after every pass over the twelve
 * joints; the value returned last is the result.
 */
export function* holeSearchRounds(search: HoleSearch): Generator<HoleSearchState, HoleSearchState, void> {
  const random = seededRandom(search.seed);
  const { judge, tried } = judgeOf(search);
  const start = judge(startHoles(search, 'base'), startHoles(search, 'platform'));
  let best = start;
  const trace: { merit: number; excess: number }[] = [];
  const state = (round: number): HoleSearchState => ({ start, best, trace: [...trace], round, layoutsTried: tried() });
  for (let round = 0; round < search.rounds; round++) {
    let present = round === 0 ? start : kicked(best, search, judge, random);
    for (;;) {
      const next = improvedOnce(present, search, judge, random);
      if (noWorse(next, best)) best = next;
      yield state(round);
      if (next === present) break;
      present = next;
    }
    trace.push({ merit: best.merit, excess: best.excess });
  }
  return state(search.rounds);
}

type Judge = (base: Holes, platform: Holes) => HolesFound;

function judgeOf(search: HoleSearch): { judge: Judge; tried: () => number } {
  const measure = new LayoutFigures(search.options);
  const row = new Float64Array(FIGURE_COUNT);
  let count = 0;
  const judge: Judge = (base, platform) => {
    count += 1;
    measure.measure(compileMechanism(withHoles(search, base, platform)), row);
    const figures = namedFigures(row);
    return {
      base,
      platform,
      figures,
      merit: meritOf(figures, search.goals),
      excess: excessOf(figures, search.bounds),
    };
  };
  return { judge, tried: () => count };
}

/** One pass over all joints in random order, each taking its first step that is better. */
function improvedOnce(present: HolesFound, search: HoleSearch, judge: Judge, random: Random): HolesFound {
  let found = present;
  for (const move of shuffled(allMoves(), random)) {
    const next = moved(found, move, search);
    if (!next) continue;
    const judged = judge(next.base, next.platform);
    if (noWorse(judged, found) && !noWorse(found, judged)) found = judged;
  }
  return found;
}

interface Move {
  readonly plate: PlateName;
  readonly leg: number;
  readonly steps: number;
}

const allMoves = (): Move[] =>
  (['base', 'platform'] as const).flatMap((plate) =>
    Array.from({ length: LEG_COUNT }, (_, leg) => STEPS.map((steps) => ({ plate, leg, steps }))).flat(),
  );

/** Both plates' holes after a move; null when the joint would meet or pass a neighbour. */
function moved(
  from: Pick<HolesFound, PlateName>,
  { plate, leg, steps }: Move,
  { circles }: HoleSearch,
): Pick<HolesFound, PlateName> | null {
  const holes = from[plate].map((hole, n) => (n === leg ? hole + steps : hole));
  return inOrder(holes, circles[plate].count) ? { ...from, [plate]: holes } : null;
}

/** Counter-clockwise leg by leg, all within one turn. */
export const inOrder = (holes: Holes, count: number): boolean =>
  holes.every((hole, n) => hole < (n + 1 < holes.length ? holes[n + 1] : holes[0] + count));

function kicked(from: HolesFound, search: HoleSearch, judge: Judge, random: Random): HolesFound {
  let holes: Pick<HolesFound, PlateName> = from;
  for (let n = 0; n < KICKED_JOINTS; n++) {
    const plate = random() < 0.5 ? 'base' : 'platform';
    const farthest = Math.max(1, Math.round(KICK_SHARE * search.circles[plate].count));
    const leg = Math.floor(random() * LEG_COUNT);
    const steps = (random() < 0.5 ? -1 : 1) * (1 + Math.floor(random() * farthest));
    holes = moved(holes, { plate, leg, steps }, search) ?? holes;
  }
  return judge(holes.base, holes.platform);
}

/** Fisher and Yates' shuffle. */
function shuffled<Item>(items: Item[], random: Random): Item[] {
  for (let n = items.length - 1; n > 0; n--) {
    const other = Math.floor(random() * (n + 1));
    [items[n], items[other]] = [items[other], items[n]];
  }
  return items;
}

/** The holes in which the design's joints sit; joints that share a hole are moved apart to the next free one. */
function startHoles({ design, circles }: HoleSearch, plate: PlateName): Holes {
  const { count, start } = circles[plate];
  const angles = jointAngles({ ...design[plate].ring, holes: circles[plate] }, plate);
  const holes: number[] = [];
  for (const angle of angles) {
    const hole = Math.round(((angle - start) * count) / (2 * Math.PI));
    const last = holes.at(-1);
    holes.push(last === undefined ? hole : Math.max(hole, last + 1));
  }
  return holes;
}

/** A design whose joints sit in single holes, as six free points on each plate. */
export function withHoles(
  { design, circles }: Pick<HoleSearch, 'design' | 'circles'>,
  base: Holes,
  platform: Holes,
): MechanismSpec {
  const plate = (name: PlateName, holes: Holes): PlateLayout => ({
    kind: 'points',
    points: holePoints(design[name].ring.radius, circles[name], holes),
  });
  return { ...design, base: plate('base', base), platform: plate('platform', platform) };
}

/** Joint centres in holes, flat 18 [mm]. */
export function holePoints(radius: number, { count, start }: HoleCircle, holes: Holes): Float64Array {
  const points = new Float64Array(3 * LEG_COUNT);
  holes.forEach((hole, leg) => {
    const angle = start + (hole * 2 * Math.PI) / count;
    points[3 * leg] = radius * Math.cos(angle);
    points[3 * leg + 1] = radius * Math.sin(angle);
  });
  return points;
}
