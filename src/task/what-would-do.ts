import type { Mechanism } from '../kinematics/mechanism.ts';
import { jointMeasures } from './joint-measures.ts';
import { type JudgeOptions, RequirementJudge, type TaskParts } from './judge-requirement.ts';
import { LegSearch } from './leg-extremes.ts';
import { piecesOf, type Requirement } from './requirement.ts';

/** A design, as far as a task is judged by it. */
export interface TaskSetting {
  readonly mechanism: Mechanism;
  readonly parts: TaskParts;
  readonly requirements: readonly Requirement[];
}

/** Parts of which one alone is changed. */
export const CHANGED_PARTS = ['actuator', 'baseJoint', 'platformJoint', 'basePlate', 'platformPlate'] as const;

export type ChangedPart = (typeof CHANGED_PARTS)[number];

/** A part and the value it is given: an actuator's stroke [mm], a joint's tilt [rad], a plate's joint radius [mm]. */
export interface PartChange {
  readonly part: ChangedPart;
  readonly value: number;
}

/** The design with one part changed; null where that part has no such value. */
export type Vary = (change: PartChange) => TaskSetting | null;

/** What the musts of a task ask of the parts, with this layout [mm, rad]. */
export interface AskedOfParts {
  readonly shortest: number;
  readonly longest: number;
  /** The longest dead length with which some stroke would do: shortest less stroke, twice. */
  readonly deadLength: number;
  readonly baseTilt: number | null;
  readonly platformTilt: number | null;
}

/** The least change of one part alone that meets the task; `to` is null where there is none. */
export interface SingleChange {
  readonly part: ChangedPart;
  readonly from: number;
  readonly to: number | null;
}

export interface WhatWouldDo {
  readonly asked: AskedOfParts;
  /** Dead length that the strokes were tried with [mm]. */
  readonly deadLength: number;
  readonly changes: readonly SingleChange[];
}

const QUICKLY: JudgeOptions = { prove: false, all: false };

/** Radii tried, as shares of the present one, outward from it: half to twice as much. */
const RADIUS_STEP = 1.04;
const RADIUS_STEPS = 17;

/** Halvings between the last radius that fails and the first that does: a ten-thousandth of the radius. */
const RADIUS_HALVINGS = 8;

/**
 * A found stroke or tilt is made this much larger, as a share: what a search finds is a hair short of the worst.
 */
const HAIR = 1e-9;

/**
 * What would meet the musts of a task with this layout: what they ask of the parts, and the least change of each part alone.
 * @param deadLength of the actuators [mm]: an actuator of stroke S is dead + S long at its shortest, dead + 2 S at its longest
 * @param vary makes the design with one part changed
 */
export function whatWouldDo(setting: TaskSetting, deadLength: number, vary: Vary): WhatWouldDo {
  const asked = askedOfParts(setting);
  const { mechanism } = setting;
  const change = (part: ChangedPart, from: number, values: readonly number[]): SingleChange => {
    const to = values.find((value) => doesWith(vary, { part, value }));
    return { part, from, to: to ?? null };
  };
  const { legs, tiltLimit, spec } = mechanism;
  const changes: SingleChange[] = [change('actuator', legs.max - legs.min, strokesFor(setting, asked, deadLength))];
  const joints = [
    ['baseJoint', tiltLimit.base, asked.baseTilt],
    ['platformJoint', tiltLimit.platform, asked.platformTilt],
  ] as const;
  for (const [part, from, tilt] of joints)
    if (tilt !== null) changes.push(change(part, from, tilt > from ? [tilt * (1 + HAIR)] : []));
  for (const plate of ['base', 'platform'] as const) {
    const layout = spec[plate];
    if (layout.kind !== 'ring') continue;
    const { radius } = layout.ring;
    const part = plate === 'base' ? 'basePlate' : 'platformPlate';
    changes.push({ part, from: radius, to: nearestRadius(vary, part, radius) });
  }
  return { asked, deadLength, changes };
}

/** Whether every must is met with one part changed. */
function doesWith(vary: Vary, change: PartChange): boolean {
  const varied = vary(change);
  return varied !== null && meets(varied);
}

/** Whether every must is met; the first that is not ends the look. */
export function meets({ mechanism, parts, requirements }: TaskSetting): boolean {
  const judge = new RequirementJudge(mechanism, parts);
  return requirements
    .filter(({ must }) => must)
    .every(
      (requirement) =>
        judge.legMargin(requirement, piecesOf(requirement.region)) >= 0 && judge.judge(requirement, QUICKLY).meets,
    );
}

function askedOfParts({ mechanism, requirements }: TaskSetting): AskedOfParts {
  const search = new LegSearch(mechanism);
  const measures = jointMeasures(mechanism);
  let shortest = Number.POSITIVE_INFINITY;
  let longest = 0;
  const tilts = { base: 0, platform: 0 };
  for (const { must, region, limits } of requirements) {
    if (!must) continue;
    const found = search.extremes(piecesOf(region), false);
    // reserves are asked of the parts as well
    shortest = Math.min(shortest, found.shortest.value - (limits.shortMargin ?? 0));
    longest = Math.max(longest, found.longest.value + (limits.longMargin ?? 0));
    for (const { measure, extreme } of found.joints) {
      const reserve = measure.plate === 'base' ? limits.baseMargin : limits.platformMargin;
      tilts[measure.plate] = Math.max(tilts[measure.plate], extreme.value + (reserve ?? 0));
    }
  }
  // a universal joint has two limits, and no one tilt
  const single = (plate: 'base' | 'platform') => measures.filter((measure) => measure.plate === plate).length === 1;
  return {
    shortest,
    longest,
    deadLength: 2 * shortest - longest,
    baseTilt: single('base') ? tilts.base : null,
    platformTilt: single('platform') ? tilts.platform : null,
  };
}

/** Strokes with which an actuator of this dead length is short and long enough: dead + S <= shortest, dead + 2 S >= longest. */
function strokesFor({ mechanism: { legs } }: TaskSetting, { shortest, longest }: AskedOfParts, dead: number) {
  const least = (longest - dead) / 2;
  const most = shortest - dead;
  const stroke = legs.max - legs.min;
  if (!(least > 0) || least > most) return [];
  // the nearest to the present one
  return [Math.min(Math.max(stroke, least * (1 + HAIR)), most)];
}

/** The radius nearest to the present one, as a ratio, with which the task is met; null where none of those tried does. */
function nearestRadius(vary: Vary, part: ChangedPart, radius: number): number | null {
  for (let step = 1; step <= RADIUS_STEPS; step++) {
    for (const way of [1, -1]) {
      const found = radius * RADIUS_STEP ** (way * step);
      if (!doesWith(vary, { part, value: found })) continue;
      let good = found;
      let bad = radius * RADIUS_STEP ** (way * (step - 1));
      for (let halving = 0; halving < RADIUS_HALVINGS; halving++) {
        const middle = (good + bad) / 2;
        if (doesWith(vary, { part, value: middle })) good = middle;
        else bad = middle;
      }
      return good;
    }
  }
  return null;
}
