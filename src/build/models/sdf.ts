import { ok } from '../../math/result.ts';
import { anglesFromRotation, type Mat3 } from '../../math/rotation.ts';
import type { Vec3 } from '../../math/vec3.ts';
import { type Exporter, textFile } from '../exporter.ts';
import { fileStem } from '../file-name.ts';
import { type BuildParts, jointFace } from '../parts.ts';
import { plateReach } from '../sheet/plate-drawing.ts';
import { escaped } from '../sheet/svg.ts';
import {
  LEAST_INERTIA,
  LEG_PART_MASS,
  MILLI,
  type ModelLeg,
  type ModelNumbers,
  modelNumbers,
} from './model-numbers.ts';

export const sdf: Exporter = {
  words: 'SDFormat 1.9 model',
  says: 'All six loops closed by ball joints, legs with limits, payload; metres.',
  purpose: 'simulate',
  ending: 'sdf',
  write: async (parts) => {
    const numbers = modelNumbers(parts);
    const warnings = [...parts.findings, ...numbers.assumed];
    return ok([textFile(`${fileStem(parts.name)}.sdf`, null, sdfText(parts, numbers), warnings)]);
  },
};

const n = (value: number): string => String(Number(value.toPrecision(15)) + 0);
const v = (vector: Vec3): string => vector.map(n).join(' ');

/** A place and a turn as the format writes them: x y z roll pitch yaw, R = Rz(yaw) Ry(pitch) Rx(roll). */
function pose(at: Vec3, R: Mat3): string {
  const { roll, pitch, yaw } = anglesFromRotation(R);
  return `${v(at)} ${n(roll)} ${n(pitch)} ${n(yaw)}`;
}

/** Rotation whose columns are a leg's own axes. */
const turnOf = ({ x, y, z }: ModelLeg): Mat3 => Float64Array.of(x[0], y[0], z[0], x[1], y[1], z[1], x[2], y[2], z[2]);

function sdfText(parts: BuildParts, numbers: ModelNumbers): string {
  const { mechanism } = parts;
  const { platform, mass, centre, inertia, legs, assumed } = numbers;
  const comment = [
    `Design ${parts.hash}, ${parts.date}, ${parts.program}.`,
    'Metres, kilograms, seconds, radians. Z up. Home pose as written; a stroke of 0 is the length of a leg at home.',
    'Leg i: a universal joint at its base joint, a stroke, and a ball joint that closes the loop at its platform joint.',
    ...assumed,
    'Tilt limits of ball joints are cones and are not written here.',
  ];
  const disc = (side: 'base' | 'platform') => {
    const { thickness } = parts.plates[side];
    const face = jointFace(parts, side);
    const middle = face + ((side === 'base' ? -1 : 1) * thickness) / 2;
    return `<visual name="plate"><pose>0 0 ${n(middle * MILLI)} 0 0 0</pose><geometry><cylinder><radius>${n(plateReach(parts, side) * MILLI)}</radius><length>${n(thickness * MILLI)}</length></cylinder></geometry></visual>`;
  };
  return `<?xml version="1.0" encoding="UTF-8"?>
<!--
${comment.map((line) => escaped(line).replaceAll('--', '- -')).join('\n')}
-->
<sdf version="1.9">
  <model name="${escaped(fileStem(parts.name))}">
    <link name="base">
      <inertial><mass>1</mass><inertia><ixx>0.01</ixx><iyy>0.01</iyy><izz>0.01</izz></inertia></inertial>
      ${disc('base')}
    </link>
    <joint name="fixed" type="fixed"><parent>world</parent><child>base</child></joint>
    <link name="platform">
      <pose>${pose(platform, mechanism.home.R_BP)}</pose>
      <inertial><pose>${v(centre)} 0 0 0</pose><mass>${n(Math.max(mass, LEG_PART_MASS))}</mass><inertia><ixx>${n(inertia[0])}</ixx><iyy>${n(inertia[1])}</iyy><izz>${n(inertia[2])}</izz></inertia></inertial>
      ${disc('platform')}
    </link>
${legs.map((leg) => legText(leg, parts)).join('\n')}
  </model>
</sdf>
`;
}

/** A leg: the barrel's frame stands at its base joint, the rod's at its tip, because a ball joint's anchor is its child's origin. */
function legText(leg: ModelLeg, { mechanism }: BuildParts): string {
  const { leg: number, base, tip, length } = leg;
  const { legs } = mechanism;
  const R = turnOf(leg);
  const across = Math.max((LEG_PART_MASS * (length / 2) ** 2) / 12, LEAST_INERTIA);
  const part = (name: string, at: Vec3, middle: number, diameter: number) => `    <link name="${name}${number}">
      <pose>${pose(at, R)}</pose>
      <gravity>false</gravity>
      <inertial><pose>0 0 ${n(middle)} 0 0 0</pose><mass>${n(LEG_PART_MASS)}</mass><inertia><ixx>${n(across)}</ixx><iyy>${n(across)}</iyy><izz>${n(LEAST_INERTIA)}</izz></inertia></inertial>
      <visual name="shape"><pose>0 0 ${n(middle)} 0 0 0</pose><geometry><cylinder><radius>${n((diameter / 2) * MILLI)}</radius><length>${n(length / 2)}</length></cylinder></geometry></visual>
    </link>`;
  const limit = `<limit><lower>${n(legs.min * MILLI - length)}</lower><upper>${n(legs.max * MILLI - length)}</upper></limit>`;
  return `${part('barrel', base, length / 4, legs.barrelDiameter)}
${part('rod', tip, -length / 4, legs.rodDiameter)}
    <joint name="swing${number}" type="universal">
      <parent>base</parent><child>barrel${number}</child>
      <axis><xyz>1 0 0</xyz></axis>
      <axis2><xyz>0 1 0</xyz></axis2>
    </joint>
    <joint name="stroke${number}" type="prismatic">
      <parent>barrel${number}</parent><child>rod${number}</child>
      <axis><xyz>0 0 1</xyz>${limit}</axis>
    </joint>
    <joint name="loop${number}" type="ball">
      <parent>platform</parent><child>rod${number}</child>
    </joint>`;
}
