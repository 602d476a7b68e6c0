import { LEG_COUNT, type PlateName } from '../../kinematics/layout.ts';
import { platformOrigin } from '../../kinematics/pose.ts';
import { rotate, rotateBack } from '../../math/rotation.ts';
import { add, at, subtract, type Vec3 } from '../../math/vec3.ts';
import { degrees } from '../../terms/units.ts';
import type { DesignDocument } from '../design.ts';
import { mechanismFromDocument } from '../units.ts';

/** Common ways to lean six mounts: away from the plate's middle, toward it, or toward the leg as it lies at home. */
export const TOWARD_RULES = ['outward', 'inward', 'leg'] as const;

export type TowardRule = (typeof TOWARD_RULES)[number];

type Six = readonly [number, number, number, number, number, number];

/** Directions in plan shorter than this share of the layout's size have no azimuth: rounding only. */
const NO_DIRECTION = 1e-9;

const KEPT_DECIMALS = 9;

/** The six azimuths in the plate's frame that a rule gives [deg, -180 to 180]; 0 where a joint has no direction in plan. */
export function towardAzimuths(document: DesignDocument, plate: PlateName, rule: TowardRule): Six {
  const mechanism = mechanismFromDocument(document);
  const azimuth = (leg: number): number => {
    const [x, y] = rule === 'leg' ? legInPlate(mechanism, plate, leg) : at(mechanism.centres[plate], leg);
    if (Math.hypot(x, y) < NO_DIRECTION * mechanism.size) return 0;
    const angle = rule === 'inward' ? Math.atan2(-y, -x) : Math.atan2(y, x);
    return Number(degrees(angle).toFixed(KEPT_DECIMALS)) + 0;
  };
  const [a, b, c, d, e, f] = Array.from({ length: LEG_COUNT }, (_, leg) => azimuth(leg));
  return [a, b, c, d, e, f];
}

/** From a plate's joint to the leg's other end at home, in that plate's axes [mm]. */
function legInPlate(mechanism: ReturnType<typeof mechanismFromDocument>, plate: PlateName, leg: number): Vec3 {
  const { home, centres, p_PoTo_P } = mechanism;
  const platformJoint = add(platformOrigin(home, p_PoTo_P), rotate(home.R_BP, at(centres.platform, leg)));
  const fromBase = subtract(platformJoint, at(centres.base, leg));
  return plate === 'base' ? fromBase : rotateBack(home.R_BP, subtract([0, 0, 0], fromBase));
}

/** Which rule the azimuths follow, or null when they are the designer's own. */
export function ruleOf(document: DesignDocument, plate: PlateName): TowardRule | null {
  const { mount } = document.joints[plate];
  if (typeof mount === 'string') return null;
  const follows = (rule: TowardRule): boolean =>
    towardAzimuths(document, plate, rule).every((azimuth, leg) => sameDirection(azimuth, mount.toward_deg[leg]));
  return TOWARD_RULES.find(follows) ?? null;
}

/** Azimuths within this of each other are the same [deg]: what is left after rounding to {@link KEPT_DECIMALS}. */
const SAME_AZIMUTH = 1e-6;

function sameDirection(one: number, other: number): boolean {
  const away = one - other;
  return Math.abs(away - 360 * Math.round(away / 360)) < SAME_AZIMUTH;
}
