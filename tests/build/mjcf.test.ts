import loadMujoco from '@mujoco/mujoco';
import { describe, expect, it } from 'vitest';
import { EXPORTERS } from '../../src/build/exporters.ts';
import { type BuildParts, SIDES } from '../../src/build/parts.ts';
import { assessForces } from '../../src/kinematics/statics.ts';
import { neverStop } from '../../src/math/long-work.ts';
import { rotate, rotationFromQuaternion } from '../../src/math/rotation.ts';
import { add } from '../../src/math/vec3.ts';
import { CASES, designLike, partsFrom, steady } from './build-cases.ts';
import { randomDesign } from './random-design.ts';

async function textOf(parts: BuildParts): Promise<string> {
  const files = await EXPORTERS.mjcf.write(parts, SIDES, neverStop);
  if (!files.ok) throw new Error(files.fault.message);
  return new TextDecoder().decode(files.value[0].bytes);
}

/** The engine's state when it has come to rest; lengths in mm. */
async function settled(parts: BuildParts, steps: number) {
  const mujoco = await loadMujoco();
  const model = mujoco.MjModel.from_xml_string(await textOf(parts));
  const data = new mujoco.MjData(model);
  try {
    mujoco.mj_forward(model, data);
    const gap = () => 1e3 * Math.max(...Float64Array.from(data.efc_pos, Math.abs).slice(0, 18));
    const asWritten = gap();
    for (let step = 0; step < steps; step++) mujoco.mj_step(model, data);
    const qpos = Float64Array.from(data.qpos);
    return {
      asWritten,
      gap: gap(),
      time: data.time,
      origin: [qpos[0] * 1e3, qpos[1] * 1e3, qpos[2] * 1e3] as const,
      R: rotationFromQuaternion([qpos[3], qpos[4], qpos[5], qpos[6]]),
      forces: Float64Array.from(data.actuator_force),
      speed: Math.max(...Float64Array.from(data.qvel, Math.abs)),
    };
  } finally {
    data.delete();
    model.delete();
  }
}

const loaded = () =>
  designLike(steady(), { payload: { mass_kg: 3, centre_mm: [10, -5, 40], inertia_kg_mm2: [4000, 4000, 5000] } });

describe('MJCF, in a general physics engine', () => {
  it.each(['steady', 'free points', 'leaning mounts', 'rod ends', '10 m', '20 mm'])(
    '%s: the six loops are closed within a micrometre as written, or a hundred-millionth of the size',
    async (name) => {
      const parts = partsFrom(CASES[name]());
      const { asWritten } = await settled(parts, 0);
      expect(asWritten).toBeLessThan(Math.max(1e-3, 1e-8 * parts.mechanism.size));
    },
  );

  it('comes to rest at home, loops within 5 um, pose within 0.1 mm, and its drives carry what statics says', async () => {
    const parts = partsFrom(loaded());
    const { mechanism, load } = parts;
    const rest = await settled(parts, 4000);
    expect(rest.time).toBeCloseTo(0.8, 6);
    expect(rest.speed).toBeLessThan(1e-5);
    expect(rest.gap).toBeLessThan(5e-3);
    const tool = add(rest.origin, rotate(rest.R, mechanism.p_PoTo_P));
    for (let axis = 0; axis < 3; axis++) expect(Math.abs(tool[axis] - mechanism.home.p_BoTo_B[axis])).toBeLessThan(0.1);
    const forces = assessForces(mechanism, { p_BoTo_B: tool, R_BP: rest.R }, load);
    if (!forces.ok) throw new Error(forces.fault.message);
    const largest = Math.max(...forces.value.forces.map(Math.abs));
    rest.forces.forEach((force, leg) => {
      expect(Math.abs(force - forces.value.forces[leg]) / largest).toBeLessThan(RELATIVE);
    });
  });

  it('random designs load and come to no harm: the time runs on, the loops stay together', async () => {
    for (const seed of [4, 9]) {
      const rest = await settled(partsFrom(randomDesign(seed)), 500);
      expect(rest.time).toBeCloseTo(0.1, 6);
      expect(rest.gap).toBeLessThan(2e-2);
    }
  });
});

/** Of the largest leg force: what loops that give by micrometres leave. */
const RELATIVE = 1e-5;
