import type { PlateName } from '../../kinematics/layout.ts';
import { legStates } from '../../kinematics/legs.ts';
import { anglesFromPose, platformOrigin } from '../../kinematics/pose.ts';
import { rotate } from '../../math/rotation.ts';
import { add, type Vec3 } from '../../math/vec3.ts';
import { degrees as degreesOf } from '../../terms/units.ts';
import { bracketKinds } from '../bracket-kinds.ts';
import { type JointMount, jointMounts } from '../joint-mounts.ts';
import { shown } from '../numerals.ts';
import { type BuildParts, type NamedPose, SIDE_WORDS } from '../parts.ts';
import { distance, drilledPlate } from '../plate-holes.ts';
import type { Table } from './csv.ts';

/** Every table of a design, in the order of the work. */
export const tablesOf = (parts: BuildParts, sides: readonly PlateName[]): readonly Table[] => [
  ...sides.map((side) => holeTable(parts, side)),
  jointTable(parts, sides),
  bracketTable(parts, sides),
  legTable(parts),
  partsList(parts, sides),
  settingTable(parts, parts.poses),
];

/** Holes of one plate in its own frame; the chord goes to the next hole of the same use. */
function holeTable(parts: BuildParts, side: PlateName): Table {
  const { holes, mounts } = drilledPlate(parts, side);
  return {
    id: `${side}-holes`,
    title: `${SIDE_WORDS[side]}: holes`,
    columns: ['hole', 'use', 'leg', 'x_mm', 'y_mm', 'angle_deg', 'diameter_mm', 'chord_to_next_mm'],
    rows: holes.map(({ centre, radius, use, number, name }, n) => {
      const leg = mounts.find(({ foot, bolts }) =>
        [foot, ...bolts].some((place) => distance(place, centre) < SAME),
      )?.leg;
      const same = holes.filter((other) => other.use === use);
      const next = same[(same.indexOf(holes[n]) + 1) % same.length];
      const chord = same.length > 1 ? distance(centre, next.centre) : null;
      const angle = degreesOf(Math.atan2(centre[1], centre[0]));
      return [number ?? name, use, leg ?? null, centre[0], centre[1], angle, 2 * radius, chord];
    }),
  };
}
/** Two places nearer than this are one [mm]: rounding. */
const SAME = 1e-6;

/** Joint centres in their plate's frame and, at home, in the base frame. */
function jointTable(parts: BuildParts, sides: readonly PlateName[]): Table {
  const { mechanism } = parts;
  const origin = platformOrigin(mechanism.home, mechanism.p_PoTo_P);
  const inBase = (side: PlateName, centre: Vec3): Vec3 =>
    side === 'base' ? centre : add(origin, rotate(mechanism.home.R_BP, centre));
  return {
    id: 'joints',
    title: 'Joint centres in their own plate, and at home in the base frame',
    columns: ['plate', 'leg', 'x_mm', 'y_mm', 'z_mm', 'base_x_mm', 'base_y_mm', 'base_z_mm', 'height_over_face_mm'],
    rows: sides.flatMap((side) =>
      jointMounts(parts, side).map(({ leg, centre, height }) => [
        side,
        leg,
        ...centre,
        ...inBase(side, centre),
        height,
      ]),
    ),
  };
}

/** How every bracket leans, in figures and in a workshop's words. */
function bracketTable(parts: BuildParts, sides: readonly PlateName[]): Table {
  return {
    id: 'brackets',
    title: 'Brackets: how the mount axes lean',
    columns: ['plate', 'leg', 'bracket', 'hole', 'lean_deg', 'toward_deg', 'in_words'],
    rows: sides.flatMap((side) => {
      const kinds = bracketKinds(parts, side);
      return jointMounts(parts, side).map((mount) => {
        const kind = kinds.findIndex(({ legs }) => legs.includes(mount.leg)) + 1;
        const [lean, toward] = [degreesOf(mount.lean), degreesOf(mount.toward)];
        return [side, mount.leg, kind, mount.hole, lean, toward, leanWords(mount)];
      });
    }),
  };
}

/** A lean of less than this in degrees is square for a workshop: what a good square shows. */
const SQUARE = 0.05;

/** "leaning 23.3 deg, 24.1 deg to the left of outward": seen from above, standing at the middle of the plate and looking at the joint. */
export function leanWords({ lean, toward, azimuth }: JointMount): string {
  const degrees = degreesOf(lean);
  if (degrees < SQUARE) return 'square to the face';
  const turn = degreesOf(Math.atan2(Math.sin(toward - azimuth), Math.cos(toward - azimuth)));
  const from = Math.abs(turn) <= 90 ? 'outward' : 'inward';
  const off = from === 'outward' ? turn : turn > 0 ? 180 - turn : -180 - turn;
  const leaning = `leaning ${shown(degrees, 1)} deg`;
  if (Math.abs(off) < SQUARE) return `${leaning} straight ${from}`;
  const left = turn > 0 ? 'left' : 'right';
  return `${leaning} ${from}, ${shown(Math.abs(off), 1)} deg to the ${left} (seen from above, looking outward)`;
}

/** Every leg at home, between its limits. */
function legTable({ mechanism }: BuildParts): Table {
  const { legs, tiltLimit, home } = mechanism;
  return {
    id: 'legs',
    title: 'Legs at home and at their limits, joint centre to joint centre',
    columns: [
      'leg',
      'home_mm',
      'shortest_mm',
      'longest_mm',
      'to_shorten_mm',
      'to_lengthen_mm',
      'base_tilt_deg',
      'base_limit_deg',
      'platform_tilt_deg',
      'platform_limit_deg',
    ],
    rows: legStates(mechanism, home).map(({ leg, length, baseTilt, platformTilt }) => [
      leg,
      length,
      legs.min,
      legs.max,
      length - legs.min,
      legs.max - length,
      degreesOf(baseTilt),
      degreesOf(tiltLimit.base),
      degreesOf(platformTilt),
      degreesOf(tiltLimit.platform),
    ]),
  };
}

/** What to buy, cut and print, with quantities. */
function partsList(parts: BuildParts, sides: readonly PlateName[]): Table {
  const { mechanism, plates, choices } = parts;
  const { legs } = mechanism;
  const size = (side: PlateName): string => {
    const { outline, thickness } = plates[side];
    const flat =
      outline.kind === 'disc' ? `diameter ${shown(2 * outline.radius, 1)} mm` : `${outline.points.length / 2} corners`;
    return `${flat}, ${shown(thickness, 1)} mm thick${parts.assumed.plates ? ' (assumed)' : ''}`;
  };
  const kindOf = (side: PlateName): string => mechanism.spec.joints[side].kind?.kind ?? 'ball';
  const joint = { ball: 'Ball joint', rodEnd: 'Rod end', universal: 'Universal joint' } as const;
  const jointRow = (side: PlateName) => {
    const kind = kindOf(side) === 'rodEnd' ? 'rodEnd' : kindOf(side) === 'universal' ? 'universal' : 'ball';
    const tilt = degreesOf(mechanism.tiltLimit[side]);
    return [`${joint[kind]}, ${side}`, 6, 'buy or print', `tilts ${shown(tilt, 1)} deg to any side it may`];
  };
  const bolts = choices.bolts === 'none' ? 0 : 6 * sides.length * Number(choices.bolts);
  return {
    id: 'parts',
    title: 'Parts list',
    columns: ['part', 'quantity', 'how', 'size'],
    rows: [
      ...sides.map((side) => [SIDE_WORDS[side], 1, 'cut', size(side)]),
      ...sides.flatMap((side) =>
        bracketKinds(parts, side).map(({ legs: of, lean }, n) => [
          `Bracket ${n + 1}, ${side}`,
          of.length,
          'print or mill',
          `legs ${of.join(' ')}, leaning ${shown(degreesOf(lean), 1)} deg`,
        ]),
      ),
      ...sides.map(jointRow),
      [
        'Actuator (leg)',
        6,
        'buy',
        `${shown(legs.min, 1)} to ${shown(legs.max, 1)} mm between joint centres, stroke ${shown(legs.max - legs.min, 1)} mm, barrel ${shown(legs.barrelDiameter, 1)} mm, rod ${shown(legs.rodDiameter, 1)} mm`,
      ],
      ...(bolts > 0 ? [['Bolt for a bracket', bolts, 'buy', `for a hole of ${choices.hole} mm`]] : []),
    ],
  };
}

/** Leg lengths to be set for a list of poses; poses as x y z of the tool point and R = Rz(yaw) Ry(pitch) Rx(roll). */
function settingTable({ mechanism }: BuildParts, poses: readonly NamedPose[]): Table {
  return {
    id: 'settings',
    title: 'Leg lengths to set, joint centre to joint centre',
    columns: [
      'pose',
      ...['x_mm', 'y_mm', 'z_mm', 'roll_deg', 'pitch_deg', 'yaw_deg'],
      ...[1, 2, 3, 4, 5, 6].map((leg) => `leg${leg}_mm`),
      'within_limits',
    ],
    rows: poses.map(({ name, pose }) => {
      const states = legStates(mechanism, pose);
      const { position, roll, pitch, yaw } = anglesFromPose(pose);
      return [
        name,
        ...position,
        ...[roll, pitch, yaw].map(degreesOf),
        ...states.map(({ length }) => length),
        states.every(({ violations }) => violations.length === 0) ? 'yes' : 'no',
      ];
    }),
  };
}
