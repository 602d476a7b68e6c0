import type { Mechanism } from '../kinematics/mechanism.ts';

/** A number that the builder chooses and the design does not hold. */
interface NumberChoice {
  readonly words: string;
  readonly says: string;
  readonly unit: 'mm' | 'deg' | '';
  readonly min: number;
  readonly max: number;
  /** What stands until something else is chosen. */
  readonly first: (mechanism: Mechanism) => number;
}

/** One of a few words that the builder chooses. */
interface WordChoice {
  readonly words: string;
  readonly says: string;
  readonly among: readonly string[];
  readonly shown: Readonly<Record<string, string>>;
  readonly first: string;
}

/** Common drill sizes for machine screws and clearance holes [mm], from the trade (tap and clearance drills of M1.6 to M36); no source. */
const DRILLS = [0.5, 0.8, 1, 1.3, 1.6, 2.1, 2.5, 3.3, 4.3, 5.5, 6.6, 9, 11, 13.5, 17.5, 22, 26, 33, 39];

/** The largest drill that is at most 4 % of the larger ring: 3.3 mm on a ring of 100 mm. */
function firstDrill({ size }: Mechanism): number {
  const fitting = DRILLS.filter((drill) => drill <= DRILL_SHARE * size);
  return fitting.at(-1) ?? DRILLS[0];
}
const DRILL_SHARE = 0.04;

const tenths = (value: number): number => Math.round(10 * value) / 10;

/**
 * The numbers that a builder chooses beside the design, one row each: the screen, the command line and the tests read this table.
 * Keys are what the command line calls them.
 */
export const NUMBER_CHOICES = {
  hole: {
    words: 'Drill diameter',
    says: 'Diameter of indexed holes, bolt holes and the marking hole.',
    unit: 'mm',
    min: 0.1,
    max: 100,
    first: firstDrill,
  },
  edge: {
    words: 'Least material',
    says: 'Material that must stay between holes, and between a hole and a rim; a smaller one is warned of.',
    unit: 'mm',
    min: 0,
    max: 200,
    first: (mechanism) => tenths(0.75 * firstDrill(mechanism)),
  },
  kerf: {
    words: 'Kerf',
    says: 'Width that the cut takes away; the DXF outline is moved outward and the opening inward by half of it.',
    unit: 'mm',
    min: 0,
    max: 20,
    first: () => 0,
  },
  boltSpacing: {
    words: 'Bolt spacing',
    says: 'Distance between the two bolts of a bracket, or side of the square of its four.',
    unit: 'mm',
    min: 1,
    max: 1000,
    first: (mechanism) => tenths(5 * firstDrill(mechanism)),
  },
  block: {
    words: 'Bracket side',
    says: 'Side of the square foot of a bracket.',
    unit: 'mm',
    min: 1,
    max: 2000,
    first: ({ legs }) => tenths(1.6 * legs.rodDiameter),
  },
  ball: {
    words: 'Ball diameter',
    says: 'Diameter of the ball in its seat.',
    unit: 'mm',
    min: 0.5,
    max: 500,
    first: ({ legs }) => legs.rodDiameter,
  },
  rim: {
    words: 'Seat rim angle',
    says: 'Angle at which the seat ends, from its axis: 90 deg holds half of the ball; less goes round it and holds it in.',
    unit: 'deg',
    min: 20,
    max: 90,
    first: () => 60,
  },
  neck: {
    words: 'Neck diameter',
    says: 'Diameter of the stud that carries the ball.',
    unit: 'mm',
    min: 0.1,
    max: 400,
    first: ({ legs }) => tenths(0.5 * legs.rodDiameter),
  },
  standoff: {
    words: 'Joint stand-off',
    says: "Of rod ends and universal joints: from the bracket's flat to the joint's centre.",
    unit: 'mm',
    min: 0,
    max: 1000,
    first: ({ legs }) => tenths(0.6 * legs.rodDiameter),
  },
  paperScale: {
    words: 'Paper model 1 :',
    says: 'The paper platform is this many times smaller.',
    unit: '',
    min: 0.1,
    max: 200,
    first: ({ size }) => [1, 2, 5, 10, 20, 50, 100].find((scale) => size / scale <= LARGEST_PAPER_RADIUS) ?? 200,
  },
} as const satisfies Readonly<Record<string, NumberChoice>>;

/** Joint radius at which both paper plates still fit an A4 sheet [mm]. */
const LARGEST_PAPER_RADIUS = 70;

/** The words that a builder chooses, one row each. */
export const WORD_CHOICES = {
  faces: {
    words: 'Drawn from',
    says: 'The face that a sheet shows; seen from below, x is mirrored.',
    among: ['above', 'below', 'both'],
    shown: { above: 'above', below: 'below', both: 'both' },
    first: 'above',
  },
  holes: {
    words: 'Indexed holes',
    says: 'All holes of the ring, or only those that carry a joint.',
    among: ['all', 'used'],
    shown: { all: 'all', used: 'used ones' },
    first: 'all',
  },
  bolts: {
    words: 'Bolts',
    says: 'Bolts of each bracket: one goes through the foot of the joint; none leaves a mark there.',
    among: ['none', '1', '2', '4'],
    shown: { none: 'none', '1': 'one', '2': 'two', '4': 'four' },
    first: '1',
  },
} as const satisfies Readonly<Record<string, WordChoice>>;

export type NumberChoiceName = keyof typeof NUMBER_CHOICES;
export type WordChoiceName = keyof typeof WORD_CHOICES;
export type Word<Name extends WordChoiceName> = (typeof WORD_CHOICES)[Name]['among'][number];

/** What a builder has chosen: every number and word of the tables. */
export type BuildChoices = { readonly [Name in NumberChoiceName]: number } & {
  readonly [Name in WordChoiceName]: Word<Name>;
};

/** What stands until something else is chosen. */
export const firstChoices = (mechanism: Mechanism): BuildChoices => ({
  hole: NUMBER_CHOICES.hole.first(mechanism),
  edge: NUMBER_CHOICES.edge.first(mechanism),
  kerf: NUMBER_CHOICES.kerf.first(),
  boltSpacing: NUMBER_CHOICES.boltSpacing.first(mechanism),
  block: NUMBER_CHOICES.block.first(mechanism),
  ball: NUMBER_CHOICES.ball.first(mechanism),
  rim: NUMBER_CHOICES.rim.first(),
  neck: NUMBER_CHOICES.neck.first(mechanism),
  standoff: NUMBER_CHOICES.standoff.first(mechanism),
  paperScale: NUMBER_CHOICES.paperScale.first(mechanism),
  faces: WORD_CHOICES.faces.first,
  holes: WORD_CHOICES.holes.first,
  bolts: WORD_CHOICES.bolts.first,
});
