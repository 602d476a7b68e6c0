import { describe, expect, it } from 'vitest';
import { readDesignFile, suggestedFileName } from '../../src/app/files/design-file.ts';
import { MAX_DESIGN_BYTES } from '../../src/document/json-text.ts';
import { writeDesign } from '../../src/document/write-design.ts';
import { sampleDesign } from '../state/sample-design.ts';

describe('reading a chosen file', () => {
  it('gives the design that was written', async () => {
    const read = await readDesignFile(new Blob([writeDesign(sampleDesign)]));
    expect(read).toEqual({ ok: true, value: sampleDesign });
  });

  it('refuses a huge file by its size, without reading it', async () => {
    const huge = new (class extends Blob {
      override readonly size = 200 * 2 ** 20;
      override arrayBuffer(): Promise<ArrayBuffer> {
        throw new Error('read after all');
      }
    })();
    const read = await readDesignFile(huge);
    expect(read).toMatchObject({ ok: false, fault: [{ reason: 'tooLarge', value: '200.0 MiB' }] });
    expect(MAX_DESIGN_BYTES).toBeLessThan(huge.size);
  });

  it('says so when the file cannot be read', async () => {
    const gone = new (class extends Blob {
      override arrayBuffer(): Promise<ArrayBuffer> {
        return Promise.reject(new DOMException('gone', 'NotFoundError'));
      }
    })();
    expect(await readDesignFile(gone)).toMatchObject({ ok: false, fault: [{ value: 'impossible to read' }] });
  });
});

describe('the suggested file name', () => {
  it.each([
    ['Wave table, steady', 'wave-table-steady.legroom.json'],
    ['  Tisch für Ø 40/60 ', 'tisch-für-ø-40-60.legroom.json'],
    ['../../etc/passwd', 'etc-passwd.legroom.json'],
    ['波の台', '波の台.legroom.json'],
    ['', 'design.legroom.json'],
    ['x'.repeat(200), `${'x'.repeat(60)}.legroom.json`],
  ])('of %j is %j', (name, expected) => {
    expect(suggestedFileName({ name })).toBe(expected);
  });
});
