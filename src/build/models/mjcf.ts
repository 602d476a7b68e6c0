import { ok } from '../../math/result.ts';
import { quaternionFromRotation } from '../../math/rotation.ts';
import type { Vec3 } from '../../math/vec3.ts';
import { at } from '../../math/vec3.ts';
import { type Exporter, textFile } from '../exporter.ts';
import { fileStem } from '../file-name.ts';
import type { BuildParts } from '../parts.ts';
import { escaped } from '../sheet/svg.ts';
import {
  LEAST_INERTIA,
  LEG_PART_MASS,
  MILLI,
  type ModelLeg,
  type ModelNumbers,
  modelNumbers,
} from './model-numbers.ts';

export const mjcf: Exporter = {
  words: 'MJCF robot model',
  says: 'All six loops closed, legs with limits and position drives, payload; metres.',
  purpose: 'simulate',
  ending: 'mjcf.xml',
  write: async (parts) => {
    const numbers = modelNumbers(parts);
    const warnings = [...parts.findings, ...numbers.assumed];
    return ok([textFile(`${fileStem(parts.name)}.mjcf.xml`, null, mjcfText(parts, numbers), warnings)]);
  },
};

/** Step of the simulation [s]; the loops are closed by springs of two steps, which holds them within micrometres. */
const STEP = 2e-4;

/** Stiffness of a drive for each kilogram of payload [N/m]: a leg then sags by some micrometres. */
const DRIVE_STIFFNESS = 1e6;

/** Drive inertia of a hinge as a share of that of the slide at the leg's length: a leg of which a fifth of the length turns. */
const SWING_SHARE = 0.04;

/** Least mass that drives are scaled for [kg]. */
const LEAST_MASS = 0.1;

/** Ten digits and more, so that loops close far below a micrometre. */
const n = (value: number): string => String(Number(value.toPrecision(15)) + 0);
const v = (vector: Vec3): string => vector.map(n).join(' ');

function mjcfText(parts: BuildParts, numbers: ModelNumbers): string {
  const { mechanism, load } = parts;
  const { platform, mass, centre, inertia, legs, assumed } = numbers;
  const scaled = Math.max(mass, LEAST_MASS);
  const stiffness = DRIVE_STIFFNESS * scaled;
  const turning = scaled / 6;
  // critical for a leg's share of the payload with the drive's own inertia
  const damping = 2 * Math.sqrt(2 * stiffness * turning);
  const { min, max } = mechanism.legs;
  const sites = legs.map(({ leg }, index) => {
    const place = at(mechanism.centres.platform, index).map((entry) => entry * MILLI);
    return `      <site name="joint${leg}" pos="${place.map(n).join(' ')}" size="0.002"/>`;
  });
  const loops = legs.map(
    ({ leg }) =>
      `    <connect name="loop${leg}" site1="tip${leg}" site2="joint${leg}" solref="${n(2 * STEP)} 1" solimp="0.9999 0.9999 0.001"/>`,
  );
  const drives = legs.map(({ leg, length }) => {
    const range = `${n(min * MILLI - length)} ${n(max * MILLI - length)}`;
    return `    <position name="drive${leg}" joint="stroke${leg}" kp="${n(stiffness)}" kv="${n(damping)}" ctrlrange="${range}"/>`;
  });
  const comment = [
    `Design ${parts.hash}, ${parts.date}, ${parts.program}.`,
    'Metres, kilograms, seconds, radians. Z up. Home pose as written; a drive at 0 holds its leg at the length it has at home.',
    'Leg i: two hinges at its base joint, a slide, and a loop closed at its platform joint.',
    ...assumed,
    'Each leg has a drive inertia (armature) of a sixth of the payload, which keeps the simulation steady and changes nothing at rest.',
    'Tilt limits of ball joints are cones and are not written here.',
  ];
  return `<?xml version="1.0" encoding="utf-8"?>
<!--
${comment.map((line) => escaped(line).replaceAll('--', '- -')).join('\n')}
-->
<mujoco model="${escaped(parts.name)}">
  <compiler angle="radian" autolimits="true"/>
  <option timestep="${n(STEP)}" integrator="implicitfast" gravity="${v(load.gravity)}" iterations="200" tolerance="1e-14"/>
  <worldbody>
    <body name="platform" pos="${v(platform)}" quat="${quaternionFromRotation(mechanism.home.R_BP).map(n).join(' ')}">
      <freejoint name="platform"/>
      <inertial pos="${v(centre)}" mass="${n(Math.max(mass, LEAST_MASS / 100))}" diaginertia="${v(inertia)}"/>
      <site name="tool" pos="${mechanism.p_PoTo_P.map((entry) => n(entry * MILLI)).join(' ')}" size="0.003"/>
${sites.join('\n')}
    </body>
${legs.map((leg) => legText(leg, parts, turning)).join('\n')}
  </worldbody>
  <equality>
${loops.join('\n')}
  </equality>
  <actuator>
${drives.join('\n')}
  </actuator>
</mujoco>
`;
}

/** Barrel and rod of one leg; their inertia is that of thin rods, each half as long as the leg. */
function legText({ leg, base, x, y, length }: ModelLeg, { mechanism }: BuildParts, turning: number): string {
  const { legs } = mechanism;
  const across = Math.max((LEG_PART_MASS * (length / 2) ** 2) / 12, LEAST_INERTIA);
  const inertial = (middle: number) =>
    `<inertial pos="0 0 ${n(middle)}" mass="${n(LEG_PART_MASS)}" diaginertia="${n(across)} ${n(across)} ${n(LEAST_INERTIA)}"/>`;
  const shape = (from: number, to: number, diameter: number) =>
    `<geom type="capsule" fromto="0 0 ${n(from)} 0 0 ${n(to)}" size="${n((diameter / 2) * MILLI)}" contype="0" conaffinity="0" mass="0"/>`;
  const swing = `armature="${n(SWING_SHARE * turning * length ** 2)}"`;
  const range = `${n(legs.min * MILLI - length)} ${n(legs.max * MILLI - length)}`;
  return `    <body name="barrel${leg}" pos="${v(base)}" xyaxes="${v(x)} ${v(y)}" gravcomp="1">
      <joint name="swing${leg}" type="hinge" axis="1 0 0" ${swing}/>
      <joint name="lean${leg}" type="hinge" axis="0 1 0" ${swing}/>
      ${inertial(length / 4)}
      ${shape(0, length / 2, legs.barrelDiameter)}
      <body name="rod${leg}" gravcomp="1">
        <joint name="stroke${leg}" type="slide" axis="0 0 1" range="${range}" armature="${n(turning)}"/>
        ${inertial((3 * length) / 4)}
        ${shape(length / 2, length, legs.rodDiameter)}
        <site name="tip${leg}" pos="0 0 ${n(length)}" size="0.002"/>
      </body>
    </body>`;
}
