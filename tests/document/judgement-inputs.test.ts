import { describe, expect, it } from 'vitest';
import type { DesignDocument } from '../../src/document/design.ts';
import { emptyDesign } from '../../src/document/empty-design.ts';
import { ASSUMED_MASS, ASSUMED_ZERO, judgementInputs } from '../../src/document/judgement-inputs.ts';
import { readDesign } from '../../src/document/read-design.ts';
import { mechanismFromDocument } from '../../src/document/units.ts';
import { innerCones } from '../../src/kinematics/inner-cones.ts';
import { jointShapes } from '../../src/kinematics/joint-limits.ts';
import { clearanceFault, defaultClearance } from '../../src/kinematics/keep-out.ts';
import { loadFault } from '../../src/kinematics/load.ts';
import { sampleText } from './sample-files.ts';

function sample(name: string): DesignDocument {
  const result = readDesign(sampleText(`valid/${name}.json`));
  if (!result.ok) throw new Error(result.fault.map(({ message }) => message).join('\n'));
  return result.value;
}

const inputsOf = (design: DesignDocument) => judgementInputs(design, mechanismFromDocument(design));

describe('a design that says nothing of load and errors', () => {
  const design = emptyDesign();
  const inputs = inputsOf(design);

  it('is judged with the stated assumptions, and says so', () => {
    expect(inputs.assumed).toEqual({ accuracy: true, payload: true, plates: true });
    expect(inputs.errors[5]).toMatchObject({ zero: ASSUMED_ZERO, resolution: 0, basePlay: 0 });
    expect(inputs.load.payload).toEqual({ mass: ASSUMED_MASS, centre: [0, 0, 0] });
    expect(inputs.stiffness).toBeNull();
    expect(inputs.clearance).toEqual(defaultClearance(mechanismFromDocument(design)));
    expect(inputs.screwLead).toBeNull();
  });
});

describe('a design that says everything', () => {
  const design = sample('judged-in-full');
  const inputs = inputsOf(design);

  it('hands on every error, stiffness and load', () => {
    expect(inputs.assumed).toEqual({ accuracy: false, payload: false, plates: false });
    expect(inputs.errors[0]).toMatchObject({ resolution: 0.01, backlash: 0.02, zero: 0.03, platformSeat: 0.09 });
    expect(inputs.stiffness?.[3]).toEqual({ leg: 800, baseJoint: 5000, platformJoint: 4000 });
    expect(inputs.load.payload).toEqual({ mass: 2, centre: [0, 0, 30], inertia: [1500, 1500, 2000] });
    expect(inputs.load.balances.map(({ kind }) => kind)).toEqual(['counterweight', 'spring']);
    expect(inputs.screwLead).toBe(-2);
  });

  it('points gravity where it was told, with its standard size', () => {
    // 9.80665 N/kg, the conventional value of the 3rd general conference on weights and measures, 1901
    expect(Math.hypot(...inputs.load.gravity)).toBeCloseTo(9.80665, 12);
    expect(inputs.load.gravity[1]).toBeCloseTo(9.80665 * 0.6, 12);
  });

  it('turns diameters into radii and degrees into radians', () => {
    const { plates, payload, keepOuts } = inputs.clearance;
    expect(plates.base).toMatchObject({ outline: { kind: 'disc', radius: 150 }, opening: 30, thickness: 8 });
    expect(plates.platform?.outline.kind).toBe('polygon');
    expect(payload).toMatchObject({ kind: 'box', turn: Math.PI / 12 });
    expect(keepOuts[0]).toMatchObject({ name: 'cable', fixedTo: 'base', solid: { kind: 'cylinder', radius: 15 } });
  });

  it('gives nothing that the kinematics refuses', () => {
    expect(loadFault(inputs.load)).toBeNull();
    expect(clearanceFault(inputs.clearance)).toBeNull();
  });
});

it('takes the inertia of a uniform box from its shape, and its middle as the centre', () => {
  const box = { middle_mm: [0, 0, 25], size_mm: [60, 40, 50] } as const;
  const { payload } = inputsOf({ ...emptyDesign(), payload: { mass_kg: 3, shape: { box } } }).load;
  expect(payload.centre).toEqual([0, 0, 25]);
  // textbook: m (b^2 + c^2) / 12
  const moments = [(3 * (1600 + 2500)) / 12, (3 * (3600 + 2500)) / 12, (3 * (3600 + 1600)) / 12, 0, 0, 0];
  moments.forEach((entry, n) => expect(payload.inertia?.[n]).toBeCloseTo(entry, 9));
});

describe('joint kinds', () => {
  const kinds = (base: DesignDocument['joints']['base']): DesignDocument => {
    const design = emptyDesign();
    return { ...design, joints: { ...design.joints, base } };
  };

  it('keep the stated limits in the true shapes', () => {
    const design = kinds({ kind: 'universal', tilt_deg: 45, mount: 'aimed', secondTilt_deg: 30 });
    const [shape] = jointShapes(mechanismFromDocument(design)).base;
    expect(shape).toMatchObject({ kind: 'universal', firstLimit: Math.PI / 4, secondLimit: Math.PI / 6 });
  });

  it('have a widest cone within', () => {
    const universal = kinds({ kind: 'universal', tilt_deg: 45, mount: 'aimed', secondTilt_deg: 30 });
    expect(innerCones(mechanismFromDocument(universal)).base).toBeCloseTo(Math.PI / 6, 12);
    const rodEnd = kinds({ kind: 'rodEnd', tilt_deg: 15, mount: 'square' });
    expect(innerCones(mechanismFromDocument(rodEnd)).base).toBeCloseTo(Math.PI / 12, 12);
    const rising = kinds({
      kind: 'rodEnd',
      tilt_deg: 15,
      mount: 'square',
      bolt: { toward_deg: [0, 60, 120, 180, 240, 300], rise_deg: 5 },
    });
    expect(innerCones(mechanismFromDocument(rising)).base).toBeCloseTo((10 * Math.PI) / 180, 12);
  });
});

it('assumes plates that the kinematics takes where all joints of a plate lie on its axis', () => {
  const points_mm: DesignDocument['base'] = {
    points_mm: [
      [0, 0, 0],
      [0, 0, 1],
      [0, 0, 2],
      [0, 0, 3],
      [0, 0, 4],
      [0, 0, 5],
    ],
  };
  expect(clearanceFault(inputsOf({ ...emptyDesign(), platform: points_mm }).clearance)).toBeNull();
});
