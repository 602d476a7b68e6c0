import { describe, expect, it } from 'vitest';
import { sortDropped } from '../../src/app/files/dropped-files.ts';
import { writeDesign } from '../../src/document/write-design.ts';
import { binaryStl, boxGltf, boxTriangles, glb, textStl } from '../state/mesh/mesh-files.ts';
import { sampleDesign } from '../state/sample-design.ts';

const file = (name: string, content: string | Uint8Array<ArrayBufferLike>) =>
  new File([Uint8Array.from(typeof content === 'string' ? new TextEncoder().encode(content) : content)], name);

describe('a dropped file', () => {
  const design = writeDesign(sampleDesign);
  const stl = binaryStl(boxTriangles([4, 3, 2]));
  it.each([
    ['table.legroom.json', design, 'design'],
    ['TABLE.JSON', design, 'design'],
    ['broken.json', '{"format": ', 'design'],
    ['part.STL', stl, 'mesh'],
    ['part.glb', glb(boxGltf([1, 1, 1])), 'mesh'],
    ['part.gltf', '{"asset": {"version": "2.0"}}', 'mesh'],
    // by what is in them where the name says nothing
    ['table', design, 'design'],
    ['table.json.txt', `\uFEFF\n${design}`, 'design'],
    ['part', glb(boxGltf([1, 1, 1])), 'mesh'],
    ['part.txt', textStl(boxTriangles([4, 3, 2])), 'mesh'],
  ] as const)('named %s is sorted by its name or its beginning', async (name, content, kind) => {
    const dropped = file(name, content);
    expect(await sortDropped([dropped])).toEqual({ kind, file: dropped });
  });

  it.each(['photo.png', 'notes.txt', 'part.step'])('named %s is refused with what is accepted', async (name) => {
    const sorted = await sortDropped([file(name, 'solid ground, but no mesh')]);
    expect(sorted).toEqual({
      kind: 'refused',
      message: `${name} was not opened: it is neither of what can be. Drop a design file (.json), or a mesh of the payload (.stl, .glb, .gltf).`,
    });
  });

  it('is refused with others: neither is opened', async () => {
    const sorted = await sortDropped([file('a.json', design), file('b.stl', stl)]);
    expect(sorted).toMatchObject({
      kind: 'refused',
      message: expect.stringContaining(
        '2 files were dropped, and none was opened. Drop one: a design file (.json), or',
      ),
    });
  });

  it('that cannot be read, such as a folder, is said to be one', async () => {
    const folder = new (class extends File {
      override slice(): Blob {
        return new (class extends Blob {
          override text(): Promise<string> {
            return Promise.reject(new DOMException('a folder', 'NotFoundError'));
          }
        })();
      }
    })([], 'designs');
    expect(await sortDropped([folder])).toMatchObject({
      message: expect.stringContaining('designs cannot be read; it may be a folder'),
    });
  });
});
