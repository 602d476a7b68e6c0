import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readDesign } from '../../src/document/read-design.ts';
import { mechanismFromDocument } from '../../src/document/units.ts';
import { reachPicture } from '../../src/jobs/reach-picture.ts';
import { buffersIn } from '../../src/jobs/transferables.ts';
import { legStates } from '../../src/kinematics/legs.ts';
import { rotationFromAngles } from '../../src/math/rotation.ts';

function demo(name: string) {
  const design = readDesign(readFileSync(`public/demos/${name}.json`, 'utf8'));
  if (!design.ok) throw new Error(design.fault.map(({ message }) => message).join(' '));
  return mechanismFromDocument(design.value);
}

/** Volume inside a closed surface [mm^3]: the sum of its triangles' signed tetrahedra with the origin. */
function enclosed({ positions, indices }: { positions: Float64Array; indices: Uint32Array }): number {
  const corner = (i: number) => positions.subarray(3 * indices[i], 3 * indices[i] + 3);
  let sum = 0;
  for (let i = 0; i < indices.length; i += 3) {
    const [a, b, c] = [corner(i), corner(i + 1), corner(i + 2)];
    sum += a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
  }
  return sum / 6;
}

describe('the picture of a reach', () => {
  const steady = demo('steady');
  const R_BP = rotationFromAngles({ roll: 0.05, pitch: -0.08, yaw: 0.1 });

  it.each(['coarse', 'fine'] as const)('is made of reachable points when %s', (detail) => {
    const { cloud, shell } = reachPicture(steady, R_BP, detail);
    expect(cloud.positions.length).toBe(3 * cloud.magnifications.length);
    expect(cloud.limits.length).toBe(cloud.magnifications.length);
    expect(shell.normals.length).toBe(shell.positions.length);
    let broken = 0;
    for (let i = 0; i < cloud.positions.length; i += 3) {
      const [x, y, z] = cloud.positions.subarray(i, i + 3);
      const legs = legStates(steady, { p_BoTo_B: [x, y, z], R_BP });
      broken += legs.filter(({ violations }) => violations.length > 0).length;
    }
    expect(broken).toBe(0);
    expect(cloud.magnifications.every((value) => value >= 1 / Math.sqrt(6))).toBe(true);
  });

  it('encloses nearly the same volume coarse and fine', () => {
    const coarse = enclosed(reachPicture(steady, R_BP, 'coarse').shell);
    const fine = enclosed(reachPicture(steady, R_BP, 'fine').shell);
    expect(coarse / fine).toBeGreaterThan(0.95);
    expect(coarse / fine).toBeLessThan(1.02);
  });

  it('says infinity where the layout is singular everywhere', () => {
    const even = demo('even');
    const { cloud } = reachPicture(even, even.home.R_BP, 'coarse');
    expect(Math.min(...cloud.magnifications)).toBeGreaterThan(1e9);
  });

  it('hands each array over in a buffer of its own', () => {
    const picture = reachPicture(steady, R_BP, 'coarse');
    expect(buffersIn(picture)).toHaveLength(8);
  });
});
