import { principalInertia, wholeInertia } from '../kinematics/inertia.ts';
import { defaultClearance } from '../kinematics/keep-out.ts';
import type { PlateName } from '../kinematics/layout.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import { length, subtract } from '../math/vec3.ts';
import type { DesignContent, JointDocument, PayloadShapeDocument } from './design.ts';
import { type DesignFault, fault } from './faults.ts';

const PLATES: readonly PlateName[] = ['base', 'platform'];

/** Contradictions among joint kinds, loads and bodies. */
export function judgementFaults(design: DesignContent, place: string, mechanism: Mechanism): (DesignFault | null)[] {
  const keepOuts = design.keepOuts ?? [];
  return [
    ...PLATES.flatMap((plate) => jointFaults(design.joints[plate], `${place}joints.${plate}`)),
    gravityFault(design.load, `${place}load`),
    inertiaFault(design.payload, `${place}payload`),
    ...PLATES.flatMap((plate) => plateFaults(design, place, mechanism, plate)),
    shapeFault(design.payload?.shape, `${place}payload.shape`),
    ...keepOuts.map(({ shape }, index) => shapeFault(shape, `${place}keepOuts[${index}].shape`)),
  ];
}

/** Keys that a joint of another kind has no use for. */
function jointFaults(joint: JointDocument, place: string): readonly DesignFault[] {
  const faults: DesignFault[] = [];
  const belongs = (key: 'bolt' | 'firstAxis' | 'secondTilt_deg', kind: JointDocument['kind']) => {
    if (joint[key] === undefined || joint.kind === kind) return;
    const limit = `left out unless kind is "${kind}"`;
    faults.push(
      fault(
        'contradiction',
        `${place}.${key}`,
        `given for kind "${joint.kind}"`,
        limit,
        `Remove it, or write "kind": "${kind}".`,
      ),
    );
  };
  belongs('bolt', 'rodEnd');
  belongs('firstAxis', 'universal');
  belongs('secondTilt_deg', 'universal');
  if (joint.kind === 'rodEnd' && joint.tilt_deg > 90) {
    const limit = 'at most 90 for a rod end, which tilts no further out of its plane';
    faults.push(fault('contradiction', `${place}.tilt_deg`, String(joint.tilt_deg), limit, 'Lower it to 90 or less.'));
  }
  return faults;
}

/** A direction of gravity that points nowhere. */
export function gravityFault(load: DesignContent['load'], place: string): DesignFault | null {
  if (!load?.gravityDirection?.every((part) => part === 0)) return null;
  const remedy = 'Write [0, 0, -1] for straight down, or leave it out.';
  return fault('contradiction', `${place}.gravityDirection`, 'without a direction', 'other than [0, 0, 0]', remedy);
}

/** An inertia that no body has. */
export function inertiaFault(payload: DesignContent['payload'], place: string): DesignFault | null {
  const numbers = payload?.inertia_kg_mm2;
  if (!numbers) return null;
  const { moments } = principalInertia(wholeInertia(numbers));
  if (moments.every((moment) => moment >= 0)) return null;
  const shown = 'the inertia of no body';
  const limit = 'a matrix without a principal moment below 0';
  const remedy = 'Make xy, xz and yz smaller, or check xx, yy and zz.';
  return fault('contradiction', `${place}.inertia_kg_mm2`, shown, limit, remedy);
}

function plateFaults(
  design: DesignContent,
  place: string,
  mechanism: Mechanism,
  plate: PlateName,
): (DesignFault | null)[] {
  const body = design.plates?.[plate];
  if (!body) return [];
  const path = `${place}plates.${plate}`;
  const { outlineDiameter_mm: disc, outline_mm: corners, openingDiameter_mm: opening } = body;
  if (corners && disc !== undefined) {
    const shown = 'given with outlineDiameter_mm';
    return [fault('contradiction', `${path}.outline_mm`, shown, 'the only outline', 'Remove one of the two.')];
  }
  if (corners) return [outlineFault(corners, `${path}.outline_mm`)];
  if (opening === undefined) return [];
  const known = defaultClearance(mechanism).plates[plate]?.outline;
  const across = disc ?? (known?.kind === 'disc' ? 2 * known.radius : 0);
  if (opening < across) return [];
  const limit = `below the plate's diameter, which is ${Number(across.toPrecision(6))}`;
  return [
    fault('contradiction', `${path}.openingDiameter_mm`, String(opening), limit, 'Lower it, or widen the plate.'),
  ];
}

/** Corners must turn left all the way round, once. */
function outlineFault(corners: readonly (readonly [number, number])[], path: string): DesignFault | null {
  let area = 0;
  let turns = 0;
  let right = false;
  for (const [n, [x, y]] of corners.entries()) {
    const [u, v] = corners[(n + 1) % corners.length];
    const [s, t] = corners[(n + 2) % corners.length];
    area += x * v - y * u;
    const turn = Math.atan2((u - x) * (t - v) - (v - y) * (s - u), (u - x) * (s - u) + (v - y) * (t - v));
    turns += turn;
    if (turn < 0) right = true;
  }
  // a star turns left at every corner too, but more than once round
  if (!right && area > 0 && turns < 3 * Math.PI) return null;
  const limit = 'convex and counter-clockwise, and enclose an area';
  const remedy = 'Put the corners in order, counter-clockwise seen from above, and leave out those that turn inward.';
  return fault('contradiction', path, `a list of ${corners.length}`, limit, remedy);
}

/** A cylinder without a length. */
export function shapeFault(shape: PayloadShapeDocument | undefined, path: string): DesignFault | null {
  if (!shape || !('cylinder' in shape)) return null;
  const { from_mm, to_mm } = shape.cylinder;
  if (length(subtract(to_mm, from_mm)) > 0) return null;
  const limit = 'apart from from_mm, so that the cylinder has a length';
  return fault(
    'contradiction',
    `${path}.cylinder.to_mm`,
    'in the same place as from_mm',
    limit,
    'Move one of the two ends.',
  );
}
