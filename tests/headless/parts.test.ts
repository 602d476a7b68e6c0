import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { emptyDesign } from '../../src/document/empty-design.ts';
import { command } from './command.ts';

const corners_mm = [0, 1, 2, 3, 4, 5, 6, 7].map((n) => [n & 1 ? 85 : 45, n & 2 ? 15 : -15, n & 4 ? -40 : -60]);

const judged = z.object({
  accuracy: z.object({ assumed: z.boolean(), worst: z.object({ length_mm: z.number() }) }),
  clearance: z.object({
    pairs: z.array(z.object({ a: z.string(), b: z.string(), distance_mm: z.number() })),
  }),
});

const posed = async (more: object) =>
  judged.parse(JSON.parse((await command(['pose', '-'], JSON.stringify({ ...emptyDesign(), ...more }))).out));

describe('a design whose legs differ', () => {
  it('is less accurate by what its one bad leg adds, and no more than if all were as bad', async () => {
    const zero = (ownByLeg?: object) => ({ accuracy: { zero_mm: 0.05, ...(ownByLeg ? { ownByLeg } : {}) } });
    const alike = await posed(zero());
    const apart = await posed(zero([{}, {}, { zero_mm: 0.2 }, {}, {}, {}]));
    const bad = await posed({ accuracy: { zero_mm: 0.2 } });
    expect(alike.accuracy.worst.length_mm).toBeLessThan(apart.accuracy.worst.length_mm);
    expect(apart.accuracy.worst.length_mm).toBeLessThan(bad.accuracy.worst.length_mm);
    // first order: four times the error in all legs moves the tool four times as far
    expect(bad.accuracy.worst.length_mm).toBeCloseTo(4 * alike.accuracy.worst.length_mm, 9);
  });
});

describe('a payload that came from a mesh', () => {
  it('is as far from the legs as the box whose corners it has', async () => {
    const box = { box: { middle_mm: [65, 0, -50], size_mm: [40, 30, 20] } };
    // long joint zones, so that the rods near their own plate are not the nearest of all
    const plates = { base: { jointZone_mm: 60 }, platform: { jointZone_mm: 60 } };
    const hull = { hull: { corners_mm, source: 'box.stl' } };
    const toPayload = async (shape: object) => {
      const { clearance } = await posed({ plates, payload: { mass_kg: 1, shape } });
      return clearance.pairs.filter(({ b }) => b === 'payload').sort((one, other) => one.a.localeCompare(other.a));
    };
    const [asBox, asHull] = [await toPayload(box), await toPayload(hull)];
    expect(asHull.map(({ a }) => a)).toEqual(['leg 1 barrel', 'leg 2 barrel']);
    asHull.forEach(({ distance_mm }, n) => {
      expect(distance_mm).toBeCloseTo(asBox[n].distance_mm, 8);
    });
  });
});

describe('a design that cannot be judged is refused with what to do', () => {
  it.each([
    [{ payload: { mass_kg: -2 } }, 'payload.mass_kg is -2; it must be from 0 to 100000000. Raise it to 0 or more.'],
    [
      { stiffness: { leg_N_mm: 0 } },
      'stiffness.leg_N_mm is 0; it must be from 0.000001 to 1000000000000. Raise it to 0.000001 or more.',
    ],
    [
      { stiffness: { leg_N_mm: 800, ownByLeg: [{}, {}, {}, {}, {}, { leg_N_mm: 0 }] } },
      'stiffness.ownByLeg[5].leg_N_mm is 0; it must be from 0.000001 to 1000000000000. Raise it to 0.000001 or more.',
    ],
    [
      { accuracy: { ownByLeg: [{ backlash_mm: -1 }, {}, {}, {}, {}, {}] } },
      'accuracy.ownByLeg[0].backlash_mm is -1; it must be from 0 to 1000. Raise it to 0 or more.',
    ],
    [
      { payload: { mass_kg: 1, shape: { hull: { corners_mm: [] } } } },
      'payload.shape.hull.corners_mm is a list of 0; it must be a list of 4 to 120 corners [x, y, z]. Add 4.',
    ],
    [
      { load: { gravityDirection: [0, 0, 0] } },
      'load.gravityDirection is without a direction; it must be other than [0, 0, 0]. Write [0, 0, -1] for straight down, or leave it out.',
    ],
    [
      { plates: { base: { thickness_mm: 0 } } },
      'plates.base.thickness_mm is 0; it must be from 0.001 to 10000. Raise it to 0.001 or more.',
    ],
    [
      { legs: { ...emptyDesign().legs, barrelLength_mm: -5 } },
      'legs.barrelLength_mm is -5; it must be from 0 to 1000000. Raise it to 0 or more.',
    ],
  ])('%j', async (more, message) => {
    const { code, out, err } = await command(['pose', '-'], JSON.stringify({ ...emptyDesign(), ...more }));
    expect(err.trim()).toBe(message);
    expect(out).toBe('');
    expect(code).not.toBe(0);
  });
});
