import DxfParser, { type ICircleEntity, type ITextEntity } from 'dxf-parser';
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '../../src/build/exporter.ts';
import { EXPORTERS, type ExporterId } from '../../src/build/exporters.ts';
import { type BuildParts, SIDES } from '../../src/build/parts.ts';
import type { PlateName } from '../../src/kinematics/layout.ts';
import { neverStop } from '../../src/math/long-work.ts';
import { seededRandom, uniform } from '../../src/math/random.ts';
import { designAt, designLike, partsFrom, steady } from './build-cases.ts';
import { randomDesign } from './random-design.ts';

const decoder = new TextDecoder();

async function written(id: ExporterId, parts: BuildParts): Promise<readonly BuildFile[]> {
  const result = await EXPORTERS[id].write(parts, SIDES, neverStop);
  if (!result.ok) throw new Error(result.fault.message);
  return result.value;
}

async function dxfOf(parts: BuildParts, side: PlateName) {
  const file = (await written('dxf', parts)).find((found) => found.side === side);
  const drawing = new DxfParser().parseSync(decoder.decode(file?.bytes));
  if (!drawing) throw new Error('The parser gave nothing.');
  const circles = drawing.entities.filter((entity): entity is ICircleEntity => entity.type === 'CIRCLE');
  const texts = drawing.entities.filter((entity): entity is ITextEntity => entity.type === 'TEXT');
  const drills = circles.filter(({ layer }) => layer === 'DRILL');
  const numbers = texts.filter(({ layer, text }) => layer === 'ENGRAVE' && /^[1-6]$/.test(text));
  return { drawing, drills, numbers };
}

describe('DXF, read by dxf-parser', () => {
  it('has the 72 indexed holes of the steady demo at R cos, R sin, and one hole that marks the face', async () => {
    const { drills, drawing } = await dxfOf(partsFrom(steady()), 'base');
    expect(drawing.header['$ACADVER']).toBe('AC1009');
    expect(drawing.header['$INSUNITS']).toBe(4);
    expect(drills).toHaveLength(73);
    for (let n = 0; n < 72; n++) {
      const [x, y] = [100 * Math.cos((n * Math.PI) / 36), 100 * Math.sin((n * Math.PI) / 36)];
      const off = Math.min(...drills.map(({ center }) => Math.hypot(center.x - x, center.y - y)));
      expect(off).toBeLessThan(1e-3);
    }
    for (const { radius } of drills) expect(radius).toBeCloseTo(1.65, 6);
  });

  it('moves the outline outward and the opening inward by half of the kerf, and leaves the holes', async () => {
    const body = { outlineDiameter_mm: 250, openingDiameter_mm: 60, thickness_mm: 6 };
    const parts = partsFrom(designLike(steady(), { plates: { base: body } }), { kerf: 0.4 });
    const { drawing, drills } = await dxfOf(parts, 'base');
    const cut = drawing.entities.flatMap((entity) =>
      entity.layer === 'CUT' && entity.type === 'CIRCLE' ? [(entity as ICircleEntity).radius] : [],
    );
    expect(cut).toEqual([125.2, 29.8]);
    expect(drills[0].radius).toBeCloseTo(1.65, 6);
  });

  for (let seed = 1; seed <= 20; seed++)
    it(`agrees with the joint centres of a random design to 1 um (seed ${seed})`, async () => {
      const parts = partsFrom(randomDesign(seed));
      for (const side of SIDES) {
        const { drills } = await dxfOf(parts, side);
        for (let leg = 0; leg < 6; leg++) {
          const [x, y] = parts.mechanism.centres[side].subarray(3 * leg);
          expect(Math.min(...drills.map(({ center }) => Math.hypot(center.x - x, center.y - y)))).toBeLessThan(1e-3);
        }
      }
    });
});

describe('the mirrored-plate trap', () => {
  const numbered = (numbers: readonly ITextEntity[]) =>
    new Map(numbers.map(({ text, endPoint, startPoint }) => [Number(text), endPoint ?? startPoint]));

  it('the platform drawn from below, turned over onto the base drawn from above, puts every leg beside its own', async () => {
    const design = steady();
    const above = numbered((await dxfOf(partsFrom(design), 'base')).numbers);
    const below = numbered((await dxfOf(partsFrom(design, { faces: 'below' }), 'platform')).numbers);
    for (const [leg, base] of above) {
      const turned = [...below].map(([other, place]) => {
        const angle = Math.atan2(place.y, -place.x) - Math.atan2(base.y, base.x);
        return { other, off: Math.abs(Math.atan2(Math.sin(angle), Math.cos(angle))) };
      });
      const sameLeg = turned.find(({ other }) => other === leg);
      // by construction of the layout a leg stays within 60 deg of its base joint; a mirrored plate puts legs 2 to 5 farther off
      expect(sameLeg?.off).toBeLessThan(Math.PI / 3);
    }
    const wrong = [...above].filter(([leg, base]) => {
      const place = below.get(leg);
      const angle = Math.atan2(place?.y ?? 0, place?.x ?? 0) - Math.atan2(base.y, base.x);
      return Math.abs(Math.atan2(Math.sin(angle), Math.cos(angle))) > Math.PI / 3;
    });
    expect(wrong.length).toBeGreaterThanOrEqual(4);
  });

  it('the two faces of a plate carry the same holes, x turned over', async () => {
    const design = designLike(steady(), { base: { ring: { ...ringOf(steady()), gap_deg: 35, turn_deg: 7.5 } } });
    const above = (await dxfOf(partsFrom(design), 'base')).drills;
    const below = (await dxfOf(partsFrom(design, { faces: 'below' }), 'base')).drills;
    expect(below).toHaveLength(above.length);
    for (const { center } of above) {
      const off = Math.min(...below.map((other) => Math.hypot(other.center.x + center.x, other.center.y - center.y)));
      expect(off).toBeLessThan(1e-3);
    }
  });

  it('no turn and no flip of the plate brings its marking hole onto itself with the joints', async () => {
    for (const design of [steady(), designAt('tests/samples/valid/rings-without-holes.json')]) {
      const parts = partsFrom(design);
      const { drills } = await dxfOf(parts, 'platform');
      const mark = drills[drills.length - 1].center;
      const [radius, angle] = [Math.hypot(mark.x, mark.y), Math.atan2(mark.y, mark.x)];
      for (let turn = 1; turn < 12; turn++) {
        const flipped = (turn * Math.PI) / 6 - angle;
        expect(2 * radius * Math.abs(Math.sin((flipped - angle) / 2))).toBeGreaterThan(parts.choices.hole);
      }
    }
  });

  it('says on every sheet which face it shows, and where the joints are', async () => {
    const parts = partsFrom(steady(), { faces: 'both' });
    for (const { name, bytes, side } of await written('svg', parts)) {
      const words = decoder.decode(bytes);
      const mirrored = name.includes('mirrored');
      expect(words).toContain(mirrored ? 'THIS FACE DOWN: seen from below' : 'THIS FACE UP: seen from above');
      expect(words).toContain((side === 'base') === !mirrored ? 'on this face' : 'on the other face');
    }
  });
});

function ringOf(design: ReturnType<typeof steady>) {
  if (!('ring' in design.base)) throw new Error('The steady demo has rings.');
  return design.base.ring;
}

describe('warnings stand on the sheet', () => {
  it.each([
    ['indexed holes too close', { hole: 8 }, 'mm between indexed holes'],
    ['a bracket over the rim', { block: 60 }, 'over the rim'],
    ['brackets that meet', { block: 40 }, 'would meet'],
    ['bolts that run into indexed holes', { bolts: '4' as const, boltSpacing: 14 }, 'of leg'],
    ['balls that meet', { ball: 40 }, 'the balls of legs 1 and 2 would meet'],
  ])('%s', async (_, choices, words) => {
    const [file] = await written('svg', partsFrom(steady(), choices));
    expect(file.warnings.join(' ')).toContain(words);
    const drawn = decoder.decode(file.bytes).replace(/<[^>]*>/g, ' ');
    expect(drawn).toContain(words.split(' ').slice(0, 2).join(' '));
  });

  it('a design that is singular everywhere says so', async () => {
    for (const { warnings } of await written('dxf', partsFrom(designAt('public/demos/even.json'))))
      expect(warnings.join(' ')).toContain('singular at every pose');
  });

  it('the steady demo has none', async () => {
    for (const { warnings } of await written('svg', partsFrom(steady()))) expect(warnings).toEqual([]);
  });
});

describe('names', () => {
  const bad = [
    ['a/b\\c:d*e?"f<g>h|i', 'a-b-c-d-e-f-g-h-i'],
    ['..', 'design'],
    ['', 'design'],
    ['CON', 'design-CON'],
    ['x'.repeat(200), 'x'.repeat(48)],
    ['مسطبة الأمواج', 'مسطبة-الأمواج'],
    ['波の台', '波の台'],
    ['tab\tand\u202eturned', 'tab-and-turned'],
  ] as const;
  it.each(bad)('%j becomes the stem %j, and every drawing is written', async (name, stem) => {
    const parts = { ...partsFrom(steady()), name };
    for (const id of ['dxf', 'svg', 'pdf'] as const)
      for (const file of await written(id, parts)) {
        expect(file.name.startsWith(`${stem}-`)).toBe(true);
        expect(new TextEncoder().encode(file.name).length).toBeLessThanOrEqual(255);
      }
  });

  it('letters that the sheet cannot show are named, never dropped without a word', async () => {
    const [file] = await written('pdf', { ...partsFrom(steady()), name: '波 table' });
    expect(file.warnings.join(' ')).toContain('lack 波 of the name');
  });
});

describe('the same design', () => {
  it.each(['dxf', 'svg', 'pdf'] as const)('gives the same bytes as %s', async (id) => {
    const random = seededRandom(5);
    const seed = Math.round(uniform(random, 1, 1000));
    const [one, other] = [
      await written(id, partsFrom(randomDesign(seed))),
      await written(id, partsFrom(randomDesign(seed))),
    ];
    expect(one.map(({ bytes }) => Buffer.from(bytes).toString('base64'))).toEqual(
      other.map(({ bytes }) => Buffer.from(bytes).toString('base64')),
    );
  });
});
