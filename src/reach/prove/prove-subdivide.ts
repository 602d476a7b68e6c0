import type { Mechanism } from '../../kinematics/mechanism.ts';
import type { LongWork } from '../../math/long-work.ts';
import { POSE_NUMBERS } from '../pose-box.ts';
import { type Claim, EnclosedBox, PROOF_QUESTIONS, type Question } from './prove-claims.ts';
import type { CounterExample, CounterSearch, Refutation } from './prove-search.ts';

/** What was left over of one question. */
export interface Leftover {
  /** Of the whole box's volume, 0 to 1. */
  readonly share: number;
  /** Middle of the largest part left; null when nothing is. */
  readonly near: Float64Array | null;
}

export interface BoxOutcome {
  readonly undecided: Readonly<Record<Question, Leftover>>;
  /** Found at the middle of a part. */
  readonly refuted: Readonly<Record<Question, CounterExample | null>>;
  readonly boxes: number;
  readonly depth: number;
  /** The boxes allowed ran out, or the work was stopped, with parts still to look at. */
  readonly cutShort: boolean;
}

export interface SubdivideOptions {
  readonly search: CounterSearch;
  readonly depth: number;
  readonly boxes: number;
  readonly work: LongWork;
}

/** A part of the box with the claims not yet proven on it. */
interface Part {
  readonly centre: Float64Array;
  readonly half: Float64Array;
  readonly depth: number;
  readonly claims: readonly Claim[];
}

/** Boxes between two looks at whether the work is still wanted, and pieces that progress is told in. */
const BOXES_PER_LOOK = 64;
const PROGRESS_PIECES = 1000;

/**
 * Proves claims on a box by halving it where they cannot be told yet, along the pose number that makes them least certain.
 * Depth first; claims proven on a box are not looked at again within it.
 */
export function subdivide(
  mechanism: Mechanism,
  claims: readonly Claim[],
  centre: Float64Array,
  half: Float64Array,
  options: SubdivideOptions,
): BoxOutcome {
  const run = new Subdivision(mechanism, options);
  return run.run({ centre, half, depth: 0, claims });
}

class Subdivision {
  private readonly box: EnclosedBox;
  private readonly options: SubdivideOptions;
  private readonly spread = new Float64Array(POSE_NUMBERS);
  private readonly scores = new Float64Array(POSE_NUMBERS);
  private readonly shares: Record<Question, number> = { reachable: 0, regular: 0, clear: 0 };
  private readonly largest: Record<Question, Part | null> = { reachable: null, regular: null, clear: null };
  private readonly refuted: Record<Question, CounterExample | null> = { reachable: null, regular: null, clear: null };

  constructor(mechanism: Mechanism, options: SubdivideOptions) {
    this.box = new EnclosedBox(mechanism);
    this.options = options;
  }

  run(whole: Part): BoxOutcome {
    const { work } = this.options;
    const stack: Part[] = [whole];
    let boxes = 0;
    let depth = 0;
    let done = 0;
    let stopped = false;
    let cutShort = false;
    for (let part = stack.pop(); part; part = stack.pop()) {
      const open = part.claims.filter(({ question }) => this.refuted[question] === null);
      if (open.length === 0) {
        done += 2 ** -part.depth;
        continue;
      }
      if (boxes % BOXES_PER_LOOK === 0) {
        work.report(Math.floor(done * PROGRESS_PIECES), PROGRESS_PIECES);
        stopped ||= work.shouldStop();
      }
      if (stopped || boxes >= this.options.boxes) {
        cutShort = true;
        this.leave({ ...part, claims: open });
        continue;
      }
      boxes++;
      depth = Math.max(depth, part.depth);
      const halves = this.examine({ ...part, claims: open });
      if (halves) stack.push(...halves);
      else done += 2 ** -part.depth;
    }
    work.report(PROGRESS_PIECES, PROGRESS_PIECES);
    const leftover = (question: Question): Leftover => ({
      share: Math.min(this.shares[question], 1),
      near: this.largest[question]?.centre ?? null,
    });
    return {
      undecided: { reachable: leftover('reachable'), regular: leftover('regular'), clear: leftover('clear') },
      refuted: this.refuted,
      boxes,
      depth,
      cutShort,
    };
  }

  /** Proves what it can; two halves to go on with, or null when nothing is left to do here. */
  private examine(part: Part): readonly [Part, Part] | null {
    const { box, spread, scores } = this;
    box.set(part.centre, part.half);
    scores.fill(0);
    const open: Claim[] = [];
    for (const claim of part.claims) {
      if (claim.lowest(box, spread) >= 0) continue;
      open.push(claim);
      addShares(spread, scores, part.half);
    }
    if (open.length === 0) return null;
    const rest = { ...part, claims: this.withoutRefuted(open, part.centre) };
    if (rest.claims.length === 0) return null;
    if (part.depth >= this.options.depth || part.half.every((entry) => entry === 0)) {
      this.leave(rest);
      return null;
    }
    return halve(rest, mostUncertain(scores, part.half));
  }

  /** Looks at the middle itself: a claim that fails there needs no more proof. */
  private withoutRefuted(claims: readonly Claim[], centre: Float64Array): readonly Claim[] {
    const { search } = this.options;
    const asked = new Set(claims.map(({ question }) => question));
    const reasons: readonly (readonly [Question, Refutation | null])[] = [
      ['reachable', asked.has('reachable') ? search.unreachable(centre) : null],
      ['clear', asked.has('clear') ? search.blocked(centre) : null],
    ];
    for (const [question, reason] of reasons)
      if (reason) this.refuted[question] = { numbers: Float64Array.from(centre), reason };
    return claims.filter(({ question }) => this.refuted[question] === null);
  }

  /** Counts a part as undecided for the questions still open in it. */
  private leave(part: Part): void {
    for (const question of PROOF_QUESTIONS) {
      if (!part.claims.some((claim) => claim.question === question)) continue;
      this.shares[question] += 2 ** -part.depth;
      const largest = this.largest[question];
      if (!largest || part.depth < largest.depth) this.largest[question] = part;
    }
  }
}

/** Adds each number's share of a claim's uncertainty, so that every open claim has one vote. */
function addShares(spread: Float64Array, scores: Float64Array, half: Float64Array): void {
  let total = 0;
  for (const entry of spread) total += entry;
  for (let number = 0; number < POSE_NUMBERS; number++) {
    if (half[number] === 0) continue;
    // bounds that are endless say nothing about which number to blame
    scores[number] += Number.isFinite(total) && total > 0 ? spread[number] / total : 1 / POSE_NUMBERS;
  }
}

function mostUncertain(scores: Float64Array, half: Float64Array): number {
  let best = half.findIndex((entry) => entry > 0);
  for (let number = 0; number < POSE_NUMBERS; number++)
    if (half[number] > 0 && scores[number] > scores[best]) best = number;
  return best;
}

function halve(part: Part, number: number): readonly [Part, Part] {
  const half = Float64Array.from(part.half);
  half[number] /= 2;
  const at = (sign: number): Part => {
    const centre = Float64Array.from(part.centre);
    centre[number] += sign * half[number];
    return { centre, half, depth: part.depth + 1, claims: part.claims };
  };
  return [at(-1), at(1)];
}
