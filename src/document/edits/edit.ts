import { LEG_COUNT, type PlateName } from '../../kinematics/layout.ts';
import type { PoseAngles } from '../../kinematics/pose.ts';
import { failed, ok, type Result } from '../../math/result.ts';
import { rotate, rotationFromAngles } from '../../math/rotation.ts';
import { add, subtract, type Vec3 } from '../../math/vec3.ts';
import type {
  DesignDocument,
  HolesDocument,
  JointDocument,
  LegsDocument,
  MountDocument,
  PlateDocument,
  RingDocument,
} from '../design.ts';
import { validateDesign } from '../read-design.ts';
import { shareUnchanged } from '../share-unchanged.ts';
import { documentFromPoseAngles, mechanismFromDocument, poseAnglesFromDocument } from '../units.ts';
import { builtRing } from './built-ring.ts';
import { type TowardRule, towardAzimuths } from './mount-rule.ts';
import { nearestRing } from './ring-fit.ts';

/**
 * Pure changes of a design. None of them checks its numbers; {@link checked} says whether a changed design may replace the open
 * one, and why not.
 */
export type Edit = (document: DesignDocument) => DesignDocument;

/**
 * A changed design as the validator gives it back, or the first thing that is wrong with it, in a sentence.
 * @param former the design before: what did not change is shared with it, and without any change it comes back itself; left out:
 * what the validator leaves alone is shared with the edited design
 */
export function checked(edited: DesignDocument, former: DesignDocument = edited): Result<DesignDocument, string> {
  const result = validateDesign(edited);
  return result.ok ? ok(shareUnchanged(former, result.value)) : failed(result.fault[0].message);
}

/** Digits behind the point of numbers that come from computing with angles: rounding errors go, a billionth of a degree stays. */
const KEPT_DECIMALS = 9;

const kept = (value: number): number => Number(value.toFixed(KEPT_DECIMALS)) + 0;

const withPlate = (document: DesignDocument, plate: PlateName, changed: PlateDocument): DesignDocument => ({
  ...document,
  [plate]: changed,
});

export const rename = (document: DesignDocument, name: string): DesignDocument => ({ ...document, name });

/** Changes numbers of a plate's ring; a plate of free points stays as it is. */
export function changeRing(
  document: DesignDocument,
  plate: PlateName,
  change: Partial<Omit<RingDocument, 'holes'>>,
): DesignDocument {
  const now = document[plate];
  return 'ring' in now ? withPlate(document, plate, { ring: { ...now.ring, ...change } }) : document;
}

/** Gives a ring a hole circle, or takes it away (null). */
export function changeHoles(document: DesignDocument, plate: PlateName, holes: HolesDocument | null): DesignDocument {
  const now = document[plate];
  if (!('ring' in now)) return document;
  const { holes: _, ...ring } = now.ring;
  return withPlate(document, plate, { ring: holes ? { ...ring, holes } : ring });
}

/**
 * Moves both joints of every pair by whole holes: away from each other (positive) or toward each other, so that the gap as built
 * changes by two holes a step. Without holes, and past the ends of the gap, the design stays as it is.
 */
export function spreadPairs(document: DesignDocument, plate: PlateName, steps: number): DesignDocument {
  const now = document[plate];
  if (!('ring' in now) || !now.ring.holes) return document;
  const gap_deg = kept(builtRing(now.ring, plate).gap_deg + (steps * 2 * 360) / now.ring.holes.count);
  return gap_deg < 0 || gap_deg > 120 ? document : changeRing(document, plate, { gap_deg });
}

/** Turns the whole joint pattern by whole holes, counter-clockwise when positive. */
export function turnByHoles(document: DesignDocument, plate: PlateName, steps: number): DesignDocument {
  const now = document[plate];
  if (!('ring' in now) || !now.ring.holes) return document;
  const turned = now.ring.turn_deg + (steps * 360) / now.ring.holes.count;
  return changeRing(document, plate, { turn_deg: kept(turned - 360 * Math.round(turned / 360)) });
}

const pointsOf = (flat: ArrayLike<number>, scale: (value: number) => number) => {
  const point = (leg: number): Vec3 => [scale(flat[3 * leg]), scale(flat[3 * leg + 1]), scale(flat[3 * leg + 2])];
  return [point(0), point(1), point(2), point(3), point(4), point(5)] as const;
};

/** Turns a ring into six free points where its joints are as built. */
export function freePoints(document: DesignDocument, plate: PlateName): DesignDocument {
  if ('points_mm' in document[plate]) return document;
  const centres = mechanismFromDocument(document).centres[plate];
  return withPlate(document, plate, { points_mm: pointsOf(centres, kept) });
}

/** Turns six free points into the ring nearest to them; {@link nearestRing} says how far that moves them. */
export function ringThroughPoints(document: DesignDocument, plate: PlateName): DesignDocument {
  const now = document[plate];
  return 'points_mm' in now
    ? withPlate(document, plate, { ring: nearestRing(now.points_mm.flat(), plate).ring })
    : document;
}

/** Changes one coordinate (0 x, 1 y, 2 z) of one joint (1 to 6) of a plate of free points. */
export function changePoint(
  document: DesignDocument,
  plate: PlateName,
  joint: number,
  axis: number,
  value: number,
): DesignDocument {
  const now = document[plate];
  if (!('points_mm' in now)) return document;
  const flat = now.points_mm.flat();
  flat[3 * (joint - 1) + axis] = value;
  return withPlate(document, plate, { points_mm: pointsOf(flat, (entry) => entry) });
}

export const changeLegs = (document: DesignDocument, change: Partial<LegsDocument>): DesignDocument => ({
  ...document,
  legs: { ...document.legs, ...change },
});

function changeJoint(document: DesignDocument, plate: PlateName, change: Partial<JointDocument>): DesignDocument {
  return { ...document, joints: { ...document.joints, [plate]: { ...document.joints[plate], ...change } } };
}

export const changeTiltLimit = (document: DesignDocument, plate: PlateName, tilt_deg: number): DesignDocument =>
  changeJoint(document, plate, { tilt_deg });

export const changeMount = (document: DesignDocument, plate: PlateName, mount: MountDocument): DesignDocument =>
  changeJoint(document, plate, { mount });

/** Changes the lean of leaning mounts; other mounts stay as they are. */
export function changeLean(document: DesignDocument, plate: PlateName, lean_deg: number): DesignDocument {
  const { mount } = document.joints[plate];
  return typeof mount === 'string' ? document : changeMount(document, plate, { ...mount, lean_deg });
}

/** Changes the azimuth toward which one joint's (1 to 6) mount leans. */
export function changeToward(
  document: DesignDocument,
  plate: PlateName,
  joint: number,
  azimuth_deg: number,
): DesignDocument {
  const { mount } = document.joints[plate];
  if (typeof mount === 'string') return document;
  const [a, b, c, d, e, f] = mount.toward_deg.map((old, index) => (index === joint - 1 ? azimuth_deg : old));
  return changeMount(document, plate, { ...mount, toward_deg: [a, b, c, d, e, f] });
}

/** Leans all six mounts of a plate by one rule; the lean stays, or starts at `lean_deg`. */
export function leanByRule(
  document: DesignDocument,
  plate: PlateName,
  rule: TowardRule,
  lean_deg: number,
): DesignDocument {
  const { mount } = document.joints[plate];
  const lean = typeof mount === 'string' ? lean_deg : mount.lean_deg;
  return changeMount(document, plate, { lean_deg: lean, toward_deg: towardAzimuths(document, plate, rule) });
}

/** Changes one coordinate (0 x, 1 y, 2 z) of the tool point. */
export const changeTool = (document: DesignDocument, axis: number, value: number): DesignDocument => ({
  ...document,
  tool: { ...document.tool, point_mm: replaced(document.tool.point_mm, axis, value) },
});

/** Changes one coordinate of the tool point and moves home along, so that the plate stays where it stands at home. */
export function changeToolOnPlate(document: DesignDocument, axis: number, value: number): DesignDocument {
  const moved = changeTool(document, axis, value);
  const { home } = document;
  const shift_B = rotate(
    rotationFromAngles(poseAnglesFromDocument(home)),
    subtract(moved.tool.point_mm, document.tool.point_mm),
  );
  return { ...moved, home: { ...home, position_mm: add(home.position_mm, shift_B) } };
}

/** One of the six numbers of a pose: 0 to 2 position x, y, z [mm], then the three angles [deg]. */
export const POSE_ANGLES = ['roll_deg', 'pitch_deg', 'yaw_deg'] as const;

/** Changes one number of the home pose: 0 x, 1 y, 2 z [mm], 3 roll, 4 pitch, 5 yaw [deg]. */
export function changeHome(document: DesignDocument, freedom: number, value: number): DesignDocument {
  const { home } = document;
  const changed =
    freedom < 3
      ? { ...home, position_mm: replaced(home.position_mm, freedom, value) }
      : { ...home, [POSE_ANGLES[freedom - 3]]: value };
  return { ...document, home: changed };
}

/** Makes a pose [mm, rad] the home pose. */
export function makeHome(document: DesignDocument, pose: PoseAngles): DesignDocument {
  const { position_mm, roll_deg, pitch_deg, yaw_deg } = documentFromPoseAngles(pose);
  const [x, y, z] = position_mm;
  return {
    ...document,
    home: {
      position_mm: [kept(x), kept(y), kept(z)],
      roll_deg: kept(roll_deg),
      pitch_deg: kept(pitch_deg),
      yaw_deg: kept(yaw_deg),
    },
  };
}

/** Sets the characteristic length, or leaves it to the platform's mean joint radius (null). */
export function changeCharacteristicLength(document: DesignDocument, length_mm: number | null): DesignDocument {
  const { characteristicLength_mm: _, ...rest } = document;
  return length_mm === null ? rest : { ...rest, characteristicLength_mm: length_mm };
}

function replaced(vector: Vec3, axis: number, value: number): Vec3 {
  const [x, y, z] = vector.map((old, index) => (index === axis ? value : old));
  return [x, y, z];
}

/** Joint numbers of a plate, 1 to 6. */
export const JOINTS: readonly number[] = Array.from({ length: LEG_COUNT }, (_, index) => index + 1);
