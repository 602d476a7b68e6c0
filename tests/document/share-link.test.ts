import { readFileSync } from 'node:fs';
import { deflateRawSync, inflateRawSync, crc32 as systemCrc32 } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crc32 } from '../../src/document/crc32.ts';
import { DEMO_NAMES, DEMOS } from '../../src/document/demos.ts';
import type { DesignDocument } from '../../src/document/design.ts';
import { emptyDesign } from '../../src/document/empty-design.ts';
import { holdsDesign } from '../../src/document/link-fragment.ts';
import { readDesign } from '../../src/document/read-design.ts';
import { COMFORTABLE_LINK, linkFragment, readLinkFragment } from '../../src/document/share-link.ts';
import { withoutSnapshots } from '../../src/document/snapshots.ts';
import { writeDesign } from '../../src/document/write-design.ts';
import { anyDesign } from './arbitrary-design.ts';
import { samples } from './sample-files.ts';

const SEED = 20260714;

/** What a link of a ring layout may take at most [characters]. */
const RING_LINK = 1200;

function reopened(fragment: string): DesignDocument {
  const read = readLinkFragment(fragment);
  if (!read.ok) throw new Error(read.fault.map(({ message }) => message).join(' '));
  return read.value;
}

const refusal = (fragment: string): string => {
  const read = readLinkFragment(fragment);
  return read.ok ? 'read' : read.fault.map(({ message }) => message).join(' ');
};

const CUT =
  'The link is cut short or altered; it must be whole, as it was copied. Ask for it again, or for the design as a file.';

describe('crc32', () => {
  it('gives the published check value', () => {
    // "123456789" -> CBF43926: the check value of CRC-32/ISO-HDLC in every catalogue of CRCs
    expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
    expect(crc32(new Uint8Array())).toBe(0);
  });
});

describe('a link', { timeout: 60_000 }, () => {
  it(`brings any design back bit for bit, without its snapshots (seed ${SEED})`, () => {
    let snapshots = 0;
    fc.assert(
      fc.property(anyDesign, (design) => {
        const fragment = linkFragment(design);
        // unreserved characters of RFC 3986 and '=' only: stands in a fragment as it is
        expect(fragment).toMatch(/^[A-Za-z0-9._=-]+$/);
        // toStrictEqual tells -0 from 0 and an absent key from an undefined one
        expect(reopened(`#${fragment}`)).toStrictEqual(withoutSnapshots(design));
        expect(writeDesign(reopened(fragment))).toBe(writeDesign(withoutSnapshots(design)));
        snapshots += design.snapshots?.length ?? 0;
      }),
      { seed: SEED, numRuns: 400 },
    );
    expect(snapshots).toBeGreaterThan(50);
  });

  it.each(samples('valid'))('brings the sample $name back', ({ bytes }) => {
    const design = readDesign(bytes);
    if (!design.ok) throw new Error('a valid sample');
    expect(reopened(linkFragment(design.value))).toStrictEqual(withoutSnapshots(design.value));
  });

  it.each(DEMO_NAMES)(`of the demo %s stays below ${RING_LINK} characters, note included`, (name) => {
    const address = `https://example.org/some/longer/path/to/legroom/index.html#${linkFragment(DEMOS[name])}`;
    expect(DEMOS[name].note.length).toBeGreaterThan(400);
    expect(address.length).toBeLessThan(RING_LINK);
  });

  it(`of a ring layout with all its digits stays below ${RING_LINK} characters (seed ${SEED})`, () => {
    const digits = fc.double({ min: 1, max: 100, noNaN: true });
    fc.assert(
      fc.property(fc.array(digits, { minLength: 24, maxLength: 24 }), (d) => {
        const ring = (at: number) => ({
          ring: {
            radius_mm: d[at],
            gap_deg: d[at + 1],
            turn_deg: d[at + 2],
            jointHeight_mm: d[at + 3],
            holes: { count: 72, start_deg: d[at + 4] },
          },
        });
        const design: DesignDocument = {
          ...emptyDesign(),
          name: 'A ring layout with every digit there is',
          base: ring(0),
          platform: ring(5),
          legs: { min_mm: d[10], max_mm: d[10] + d[11], barrelDiameter_mm: d[12], rodDiameter_mm: d[13] },
          tool: { point_mm: [d[14], d[15], d[16]] },
          home: { position_mm: [d[17], d[18], d[19]], roll_deg: d[20], pitch_deg: d[21], yaw_deg: d[22] },
          characteristicLength_mm: d[23],
        };
        const fragment = linkFragment(design);
        expect(fragment.length).toBeLessThan(RING_LINK);
        expect(reopened(fragment)).toStrictEqual(design);
      }),
      { seed: SEED, numRuns: 100 },
    );
  });

  it('with the longest note comes back, and is longer than is comfortable', () => {
    const pieces = Array.from({ length: 4000 }, (_, n) => ((n * 7919) % 65_521).toString(36).padStart(5, 'x'));
    for (const note of [pieces.join(''), '\u0001'.repeat(20_000), '漢'.repeat(20_000)]) {
      expect(note).toHaveLength(20_000);
      const design = { ...emptyDesign(), note };
      expect(reopened(linkFragment(design))).toStrictEqual(design);
    }
    expect(linkFragment({ ...emptyDesign(), note: pieces.join('') }).length).toBeGreaterThan(COMFORTABLE_LINK);
  });

  it('can be read with nothing of ours but its description', () => {
    // second implementation: Node's zlib and Buffer
    const [, packed, check] = linkFragment(DEMOS.roomy).split('.');
    const json = inflateRawSync(Buffer.from(packed, 'base64url'));
    expect(JSON.parse(json.toString('utf8'))).toEqual(DEMOS.roomy);
    expect(systemCrc32(json).toString(16).padStart(8, '0')).toBe(check);
  });

  it('written by others is read', () => {
    const json = Buffer.from(readFileSync(new URL('../samples/valid/keys-in-another-order.json', import.meta.url)));
    const packed = deflateRawSync(json).toString('base64url');
    const check = systemCrc32(json).toString(16).padStart(8, '0');
    const plain = readDesign(json);
    expect(reopened(`design=1.${packed}.${check}`)).toStrictEqual(plain.ok && plain.value);
  });

  it('that was written before this version is still read', () => {
    // kept for ever: the plain layout as form 1 was first written
    const kept =
      'design=1.lVHLTsMwEPwXn43kRKqQeubAD3BCVeVgkyzYu5G94aEq_86uU4pA4lDlkH14xjPjk3mmkj2bvUlxLET5JsQKIxpr3mKpQGj2nTXoc5QzD8jAKQbZIrFOpBp8lepkCuDY_j7AUo85C9I5a0Y_H0OUVS8NLwW3TpoXAuT7COPE7bhbV2vm5FlF_UN5ez2jOKvKkgE3VQrL_qM1vUocfCkx3YG45Fi2eW9NofBr1jlha1c0vm_jr4BBohh8ShIHQ-Kzup1cQwtquh6yxPbH3hVAQTJRUtSsApqeR2flO8huIn0f3VVgebSfdbdzB3WS0iWkGfhpunSf_v1cr-sX.f052cb01';
    expect(reopened(kept)).toStrictEqual(emptyDesign());
  });
});

describe('a broken link', () => {
  const whole = linkFragment(DEMOS.steady);

  it('is refused wherever it is cut', () => {
    for (let end = 'design='.length; end < whole.length; end++) {
      expect(refusal(whole.slice(0, end)), `cut after ${end}`).toBe(CUT);
    }
  });

  it('is refused whatever single character is changed, unless it means the same', () => {
    for (let at = 'design=1.'.length; at < whole.length; at++) {
      const put = whole[at] === 'A' ? 'B' : 'A';
      const read = readLinkFragment(whole.slice(0, at) + put + whole.slice(at + 1));
      // the last character of base64 may carry bits that no byte uses
      if (read.ok) expect(read.value).toStrictEqual(DEMOS.steady);
      else expect(read.fault[0].message).toBe(CUT);
    }
  });

  it('of a later form says so', () => {
    expect(refusal(whole.replace('=1.', '=2.'))).toBe(
      'The link is of form "2"; it must be of form 1, the newest that this program reads. Open it with a newer Legroom.',
    );
    expect(refusal(whole.replace('=1.', '=one.'))).toBe(CUT);
  });

  it('with a design that is not one names what is wrong in it', () => {
    const json = Buffer.from(JSON.stringify({ ...DEMOS.steady, legs: { ...DEMOS.steady.legs, min_mm: -3 } }));
    const fragment = `design=1.${deflateRawSync(json).toString('base64url')}.${systemCrc32(json).toString(16)}`;
    expect(refusal(fragment)).toContain('legs.min_mm is -3');
  });

  it('made to swell is stopped early', () => {
    const bomb = deflateRawSync(Buffer.alloc(200 * 2 ** 20, 32), { level: 9 });
    expect(bomb.length).toBeLessThan(300_000);
    const started = performance.now();
    expect(refusal(`design=1.${bomb.toString('base64url')}.00000000`)).toContain('far larger than any design');
    expect(performance.now() - started).toBeLessThan(2000);
  });

  it('of random characters is refused without a throw', () => {
    const any = fc.string({ unit: fc.constantFrom(...'AZaz09-_.=%#é'), maxLength: 300 });
    fc.assert(
      fc.property(any, (text) => {
        expect(refusal(`design=1.${text}`)).toBe(CUT);
      }),
      { seed: SEED, numRuns: 1000 },
    );
  });

  it('is told from an ordinary fragment', () => {
    expect([holdsDesign('#design'), holdsDesign(''), holdsDesign('#design=1.x.y')]).toEqual([false, false, true]);
  });
});
