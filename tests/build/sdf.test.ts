import { describe, expect, it } from 'vitest';
import { EXPORTERS } from '../../src/build/exporters.ts';
import { SIDES } from '../../src/build/parts.ts';
import { neverStop } from '../../src/math/long-work.ts';
import { CASES, partsFrom } from './build-cases.ts';

/** x y z roll pitch yaw of a link, R = Rz Ry Rx, as a function from its frame to the model's. */
function placing(numbers: readonly number[]) {
  const [x, y, z, r, p, w] = numbers;
  return ([a, b, c]: readonly number[]): readonly number[] => {
    const [b1, c1] = [Math.cos(r) * b - Math.sin(r) * c, Math.sin(r) * b + Math.cos(r) * c];
    const [a2, c2] = [Math.cos(p) * a + Math.sin(p) * c1, -Math.sin(p) * a + Math.cos(p) * c1];
    return [x + Math.cos(w) * a2 - Math.sin(w) * b1, y + Math.sin(w) * a2 + Math.cos(w) * b1, z + c2];
  };
}

describe('SDFormat', () => {
  it.each(Object.keys(CASES))(
    '%s: six closed loops as written, within a micrometre or 1e-9 of the size',
    async (name) => {
      const parts = partsFrom(CASES[name]());
      const files = await EXPORTERS.sdf.write(parts, SIDES, neverStop);
      if (!files.ok) throw new Error(files.fault.message);
      const xml = new TextDecoder().decode(files.value[0].bytes);
      expect(xml).toContain('<sdf version="1.9">');
      const pose = (link: string): readonly number[] =>
        new RegExp(`<link name="${link}">\\s*<pose>([^<]*)</pose>`).exec(xml)?.[1].split(' ').map(Number) ?? [];
      const limit = Math.max(1e-6, 1e-12 * parts.mechanism.size);
      expect(xml.match(/type="ball"/g)).toHaveLength(6);
      const platform = placing(pose('platform'));
      for (let leg = 1; leg <= 6; leg++) {
        const i = 3 * (leg - 1);
        const joint = platform(Array.from(parts.mechanism.centres.platform.slice(i, i + 3), (mm) => mm / 1000));
        const base = Array.from(parts.mechanism.centres.base.slice(i, i + 3), (mm) => mm / 1000);
        const rod = pose(`rod${leg}`);
        const barrel = pose(`barrel${leg}`);
        const length = Math.hypot(...joint.map((entry, axis) => entry - base[axis]));
        // the barrel stands at its base joint and points at the rod's frame, which stands in the platform's joint
        const tip = placing(barrel)([0, 0, length]);
        for (let axis = 0; axis < 3; axis++) {
          expect(Math.abs(rod[axis] - joint[axis])).toBeLessThan(limit);
          expect(Math.abs(barrel[axis] - base[axis])).toBeLessThan(limit);
          expect(Math.abs(tip[axis] - rod[axis])).toBeLessThan(limit);
        }
      }
    },
  );
});
