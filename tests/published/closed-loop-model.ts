import loadMujoco from '@mujoco/mujoco';
import { legStates } from '../../src/kinematics/legs.ts';
import type { Mechanism } from '../../src/kinematics/mechanism.ts';
import { type Pose, platformOrigin } from '../../src/kinematics/pose.ts';
import { quaternionFromRotation, rotationFromQuaternion } from '../../src/math/rotation.ts';
import { cross, scale, unit, type Vec3 } from '../../src/math/vec3.ts';

/** What hangs on the legs in the physics engine's model: kg, mm, kg mm^2, N at the platform's own origin. */
export interface ModelLoad {
  readonly mass: number;
  readonly centre: Vec3;
  readonly inertia: Vec3;
  readonly gravity: Vec3;
  /** Force [N] and torque [N mm] on the platform about its centre of mass, base axes. */
  readonly force: Vec3;
  readonly torque: Vec3;
  /** Axial spring of each leg [N/mm]. */
  readonly stiffness: number;
}

/** The engine's state at rest. */
export interface Rest {
  /** Leg force by its spring's compression [N], push positive. */
  readonly forces: Float64Array;
  readonly platformOrigin: Vec3;
  readonly R_BP: Float64Array;
  /** Largest gap at a loop closure [mm]: the soft constraint's own error. */
  readonly gap: number;
  /** Largest speed left [m/s or rad/s]. */
  readonly speed: number;
}

/**
 * Builds the design as a general physics engine sees it (metres, one ball joint and one sliding joint with a spring per leg,
 * loops closed by `equality/connect`), lets it come to rest, and reads it. Legs are massless but for a little inertia.
 */
export async function restInEngine(mechanism: Mechanism, pose: Pose, load: ModelLoad): Promise<Rest> {
  const mujoco = await loadMujoco();
  const model = mujoco.MjModel.from_xml_string(xml(mechanism, pose, load));
  const data = new mujoco.MjData(model);
  try {
    const push = [...load.force, ...scale(load.torque, 1e-3)];
    // body 1 is the platform; its applied force acts at its centre of mass
    for (let step = 0; step < 3000; step++) {
      push.forEach((entry, n) => {
        data.xfrc_applied[6 + n] = entry;
      });
      mujoco.mj_step(model, data);
    }
    return read(Float64Array.from(data.qpos), Float64Array.from(data.qvel), Float64Array.from(data.efc_pos), load);
  } finally {
    data.delete();
    model.delete();
  }
}

function read(qpos: Float64Array, qvel: Float64Array, closure: Float64Array, { stiffness }: ModelLoad): Rest {
  // platform: 3 + 4 numbers; then per leg a ball (4) and a slide (1)
  const forces = Float64Array.from({ length: 6 }, (_, leg) => -stiffness * 1e3 * qpos[7 + 5 * leg + 4]);
  return {
    forces,
    platformOrigin: [qpos[0] * 1e3, qpos[1] * 1e3, qpos[2] * 1e3],
    R_BP: rotationFromQuaternion([qpos[3], qpos[4], qpos[5], qpos[6]]),
    gap: Math.max(...closure.map(Math.abs)) * 1e3,
    speed: Math.max(...qvel.map(Math.abs)),
  };
}

const metres = (v: Vec3 | Float64Array) => Array.from(v, (entry) => entry / 1e3).join(' ');

function xml(mechanism: Mechanism, pose: Pose, load: ModelLoad): string {
  const states = legStates(mechanism, pose);
  const legs = states.map(({ leg, baseJoint_B, u_B, length }) => {
    const side = unit(Math.abs(u_B[0]) < 0.7 ? cross(u_B, [1, 0, 0]) : cross(u_B, [0, 1, 0]));
    const other = cross(u_B, side);
    return `
    <body name="barrel${leg}" pos="${metres(baseJoint_B)}" xyaxes="${side.join(' ')} ${other.join(' ')}" gravcomp="1">
      <joint type="ball" damping="0.5"/>
      <inertial pos="0 0 0" mass="0.1" diaginertia="2e-3 2e-3 2e-3"/>
      <body name="rod${leg}" gravcomp="1">
        <joint type="slide" axis="0 0 1" stiffness="${load.stiffness * 1e3}" damping="${load.stiffness * 3}"/>
        <inertial pos="0 0 0" mass="0.1" diaginertia="1e-4 1e-4 1e-4"/>
        <site name="rodEnd${leg}" pos="0 0 ${length / 1e3}"/>
      </body>
    </body>`;
  });
  const sites = states.map(({ leg }, index) => {
    const centre = mechanism.centres.platform.subarray(3 * index, 3 * index + 3);
    return `<site name="joint${leg}" pos="${metres(centre)}"/>`;
  });
  const loops = states.map(
    ({ leg }) => `<connect site1="rodEnd${leg}" site2="joint${leg}" solref="0.002 1" solimp="0.999 0.999 0.001"/>`,
  );
  return `<mujoco>
  <compiler autolimits="true"/>
  <option timestep="0.0005" integrator="implicitfast" gravity="${load.gravity.join(' ')}" tolerance="1e-14" iterations="200"/>
  <worldbody>
    <body name="platform" pos="${metres(platformOrigin(pose, mechanism.p_PoTo_P))}" quat="${quaternionFromRotation(pose.R_BP).join(' ')}">
      <freejoint/>
      <inertial pos="${metres(load.centre)}" mass="${load.mass}" diaginertia="${load.inertia.map((i) => i * 1e-6).join(' ')}"/>
      ${sites.join('\n      ')}
    </body>${legs.join('')}
  </worldbody>
  <equality>${loops.join('\n    ')}</equality>
</mujoco>`;
}
