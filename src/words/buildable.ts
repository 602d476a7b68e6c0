import type { BuildGap, BuildRule } from '../kinematics/buildable/judge.ts';
import { roundedText } from './numbers.ts';

/** A length of a gap, without its sign. */
const size = ({ gap }: BuildGap): string => `${roundedText(Math.abs(gap), 1)} mm`;

const legs = ({ legs: named }: BuildGap): string => named.join(' and ');

const plate = ({ plate: name }: BuildGap): string => (name === 'base' ? 'base' : 'platform');

/** What a rule says of a layout: where it is broken, and where it holds. */
const RULE_WORDS: Readonly<
  Record<BuildRule, readonly [broken: (gap: BuildGap) => string, kept: (gap: BuildGap) => string]>
> = {
  jointsApart: [
    (gap) => `joints ${legs(gap)} on the ${plate(gap)} are ${size(gap)} too close`,
    (gap) => `joints ${legs(gap)} on the ${plate(gap)} have ${size(gap)} to spare`,
  ],
  holeToRim: [
    (gap) => `the hole of joint ${legs(gap)} is ${size(gap)} too near the rim of the ${plate(gap)}`,
    (gap) => `the holes of the ${plate(gap)} have ${size(gap)} to spare to its rim`,
  ],
  holeToOpening: [
    (gap) => `the hole of joint ${legs(gap)} is ${size(gap)} too near the opening of the ${plate(gap)}`,
    (gap) => `the holes of the ${plate(gap)} have ${size(gap)} to spare to its opening`,
  ],
  holesApart: [
    (gap) => `the web between holes of the ${plate(gap)} is ${size(gap)} too thin`,
    (gap) => `the web between holes of the ${plate(gap)} has ${size(gap)} to spare`,
  ],
  barrelOverPlate: [
    (gap) => `at its largest tilt the barrel of leg ${legs(gap)} comes ${size(gap)} too near the base plate`,
    (gap) => `at its largest tilt every barrel is ${size(gap)} clear of the base plate`,
  ],
  legsApart: [
    (gap) => `legs ${legs(gap)} run ${size(gap)} into each other at home`,
    (gap) => `legs ${legs(gap)} are ${size(gap)} apart at home`,
  ],
  homeLength: [
    (gap) => `at home leg ${legs(gap)} is ${size(gap)} outside its stroke`,
    (gap) => `at home leg ${legs(gap)} has ${size(gap)} of stroke left`,
  ],
  homeTilt: [
    (gap) =>
      `at home the joint of leg ${legs(gap)} on the ${plate(gap)} is tilted too far, by ${size(gap)} at the leg’s end`,
    (gap) => `at home the joint of leg ${legs(gap)} on the ${plate(gap)} can tilt on by ${size(gap)} at the leg’s end`,
  ],
  actuator: [
    (gap) => `no such leg: its longest is ${size(gap)} more than twice its shortest allows`,
    (gap) => `the leg has ${size(gap)} to spare below twice its shortest length`,
  ],
  sheet: [
    (gap) => `the ${plate(gap)} plate is ${size(gap)} too large for its sheet`,
    (gap) => `the ${plate(gap)} plate leaves ${size(gap)} of its sheet`,
  ],
  boltReach: [
    (gap) => `a tool over a bolt of joint ${legs(gap)} on the ${plate(gap)} meets the joint beside it by ${size(gap)}`,
    (gap) => `a tool over the bolts of the ${plate(gap)} has ${size(gap)} to spare`,
  ],
  overhang: [
    (gap) => `the bracket of joint ${legs(gap)} on the ${plate(gap)} leans too far to be printed`,
    () => 'every bracket can be printed without support',
  ],
};

/** One gap in words: what is in the way, or how much room there is. */
export const gapWords = (gap: BuildGap, fits: boolean): string => RULE_WORDS[gap.rule][fits ? 1 : 0](gap);
