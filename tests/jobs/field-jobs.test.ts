import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { judgementInputs } from '../../src/document/judgement-inputs.ts';
import { readDesign } from '../../src/document/read-design.ts';
import { mechanismFromDocument } from '../../src/document/units.ts';
import { type FieldQuestion, fieldJobs } from '../../src/jobs/field-jobs.ts';
import { reachPicture } from '../../src/jobs/reach-picture.ts';
import { buffersIn } from '../../src/jobs/transferables.ts';
import { QUANTITY_NAMES } from '../../src/terms/quantities.ts';

function demo(name: string) {
  const design = readDesign(readFileSync(`public/demos/${name}.json`, 'utf8'));
  if (!design.ok) throw new Error(design.fault.map(({ message }) => message).join(' '));
  const mechanism = mechanismFromDocument(design.value);
  const { errors, stiffness, load, clearance } = judgementInputs(design.value, mechanism);
  const question: FieldQuestion = {
    spec: mechanism.spec,
    R_BP: mechanism.home.R_BP,
    settings: { errors, stiffness, load, clearance },
  };
  const { cloud, shell } = reachPicture(mechanism, mechanism.home.R_BP, 'coarse');
  return { question, places: { cloud: cloud.positions, shell: shell.positions } };
}

describe('the field of a drawn reach', () => {
  const { question, places } = demo('steady');

  it('has a value of every known quantity at every point, and its spread', () => {
    const field = fieldJobs.field(question, places);
    for (const quantity of QUANTITY_NAMES) {
      const known = quantity !== 'stiffness';
      expect(field.cloud[quantity]?.length).toBe(known ? places.cloud.length / 3 : undefined);
      expect(field.shell[quantity]?.length).toBe(known ? places.shell.length / 3 : undefined);
      expect(field.ranges[quantity] !== undefined).toBe(known);
    }
    expect(field.singular).toBe(0);
    // inside of the reach there is room to every limit; vertices on its edges lie within 0.02 cells of them
    for (const quantity of ['shortMargin', 'longMargin', 'baseMargin', 'platformMargin'] as const) {
      expect(Math.min(...(field.cloud[quantity] ?? [-1]))).toBeGreaterThan(-1e-4);
      expect(field.ranges[quantity]?.min).toBeGreaterThan(-0.2);
    }
  });

  it('survives the way to a worker and back as it is', () => {
    const sent = structuredClone({ question, places });
    const there = fieldJobs.field(sent.question, sent.places);
    const field = structuredClone(there, { transfer: buffersIn(there) });
    expect(field).toEqual(fieldJobs.field(question, places));
  });

  it('is empty of values that need a regular pose where all are singular', () => {
    const even = demo('even');
    const field = fieldJobs.field(even.question, even.places);
    expect(field.singular).toBe((even.places.cloud.length + even.places.shell.length) / 3);
    expect(field.ranges.toolError).toBeUndefined();
    expect(field.cloud.legForce?.every(Number.isNaN)).toBe(true);
    expect(field.ranges.clearance?.count).toBe(field.singular);
  });

  it('fails in words when something is missing', () => {
    expect(() => fieldJobs.usable(question, [{ quantity: 'stiffness', value: 5 }])).toThrow(/"stiffness"/);
  });
});
