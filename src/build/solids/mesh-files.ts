import { zipSync } from 'fflate';
import { decimal } from '../numerals.ts';
import { escaped } from '../sheet/svg.ts';
import type { Mesh } from './manifold.ts';

/** Triangles as binary STL: 80 bytes of words, a count, and 50 bytes each; mm by agreement, since the format has no unit. */
export function meshStl({ corners, triangles }: Mesh, words: string): Uint8Array {
  const count = triangles.length / 3;
  const bytes = new Uint8Array(84 + 50 * count);
  const view = new DataView(bytes.buffer);
  // a file that begins with "solid" is taken for the format's text form
  bytes.set(new TextEncoder().encode(`Legroom mesh, mm. ${words}`.replace(/[^\x20-\x7e]/g, '?')).subarray(0, 80));
  view.setUint32(80, count, true);
  for (let n = 0; n < count; n++) {
    const at = (corner: number, axis: number) => corners[3 * triangles[3 * n + corner] + axis];
    const edge = (corner: number) => [0, 1, 2].map((axis) => at(corner, axis) - at(0, axis));
    const [u, v] = [edge(1), edge(2)];
    const normal = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
    const size = Math.hypot(...normal) || 1;
    const start = 84 + 50 * n;
    for (let axis = 0; axis < 3; axis++) {
      view.setFloat32(start + 4 * axis, normal[axis] / size, true);
      for (let corner = 0; corner < 3; corner++)
        view.setFloat32(start + 12 + 12 * corner + 4 * axis, at(corner, axis), true);
    }
  }
  return bytes;
}

/** Six significant digits are what a mesh's numbers hold; nine digits after the point hold them all. */
const DIGITS = 6;

/** One mesh as a 3MF package (core specification 1), in mm. */
export function meshThreeMf({ corners, triangles }: Mesh, title: string): Uint8Array {
  const vertices: string[] = [];
  for (let n = 0; n < corners.length; n += 3)
    vertices.push(
      `<vertex x="${decimal(corners[n], DIGITS)}" y="${decimal(corners[n + 1], DIGITS)}" z="${decimal(corners[n + 2], DIGITS)}"/>`,
    );
  const faces: string[] = [];
  for (let n = 0; n < triangles.length; n += 3)
    faces.push(`<triangle v1="${triangles[n]}" v2="${triangles[n + 1]}" v3="${triangles[n + 2]}"/>`);
  const model = `<?xml version="1.0" encoding="UTF-8"?>
<model unit="millimeter" xml:lang="en-US" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">
<metadata name="Title">${escaped(title)}</metadata>
<resources><object id="1" type="model"><mesh>
<vertices>
${vertices.join('\n')}
</vertices>
<triangles>
${faces.join('\n')}
</triangles>
</mesh></object></resources>
<build><item objectid="1"/></build>
</model>
`;
  return packed({ '[Content_Types].xml': TYPES, '_rels/.rels': RELATIONS, '3D/3dmodel.model': model });
}

const TYPES = `<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/></Types>
`;

const RELATIONS = `<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Target="/3D/3dmodel.model" Id="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/></Relationships>
`;

/** The earliest day a zip can state, by the clock of wherever this runs: the same files then give the same bytes. */
export const NO_DAY = new Date(1980, 0, 1);

function packed(texts: Readonly<Record<string, string>>): Uint8Array {
  const encoder = new TextEncoder();
  const files = Object.fromEntries(Object.entries(texts).map(([name, text]) => [name, encoder.encode(text)]));
  return zipSync(files, { level: 6, mtime: NO_DAY });
}
