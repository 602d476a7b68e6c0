import { zlibSync } from 'fflate';
import { decimal } from '../numerals.ts';

/** A millionth of a point: a third of a nanometre. */
const DIGITS = 6;

export const real = (value: number): string => decimal(value, DIGITS);

const encoder = new TextEncoder();

/**
 * A PDF 1.4 file (ISO 32000-1), object by object: numbered from 1, with a cross-reference table and, where a number of its own is asked for,
 * a reserved one. Written by hand because the library that was tried names a character collection that readers refuse, embeds fonts that no
 * page uses, and needs three seconds for four sheets.
 */
export class PdfFile {
  readonly #objects: (Uint8Array | null)[] = [];

  /** A number for an object that is written later. */
  reserve(): number {
    return this.#objects.push(null);
  }

  /** Writes a dictionary or other object in the file's own words; gives its number. */
  add(body: string, number = this.reserve()): number {
    this.#objects[number - 1] = encoder.encode(body);
    return number;
  }

  /** Writes a stream, deflated; `more` stands in its dictionary. */
  addStream(content: Uint8Array | string, more = ''): number {
    const bytes = zlibSync(typeof content === 'string' ? encoder.encode(content) : content);
    const head = encoder.encode(`<< ${more}/Filter /FlateDecode /Length ${bytes.length} >>\nstream\n`);
    const number = this.reserve();
    this.#objects[number - 1] = joined([head, bytes, encoder.encode('\nendstream')]);
    return number;
  }

  /** The whole file. `id` is 32 hexadecimal digits. */
  finish(catalog: number, info: number, id: string): Uint8Array {
    // four bytes above 127 tell programs that carry files that this one is not text
    const parts: Uint8Array[] = [joined([encoder.encode('%PDF-1.4\n%'), Uint8Array.of(226, 227, 207, 211, 10)])];
    let at = parts[0].length;
    const offsets: number[] = [];
    for (const [n, body] of this.#objects.entries()) {
      const object = joined([
        encoder.encode(`${n + 1} 0 obj\n`),
        body ?? encoder.encode('null'),
        encoder.encode('\nendobj\n'),
      ]);
      offsets.push(at);
      at += object.length;
      parts.push(object);
    }
    const count = offsets.length + 1;
    const table = offsets.map((offset) => `${String(offset).padStart(10, '0')} 00000 n \n`).join('');
    parts.push(
      encoder.encode(
        `xref\n0 ${count}\n0000000000 65535 f \n${table}trailer\n<< /Size ${count} /Root ${catalog} 0 R /Info ${info} 0 R /ID [<${id}> <${id}>] >>\nstartxref\n${at}\n%%EOF\n`,
      ),
    );
    return joined(parts);
  }
}

export function joined(parts: readonly Uint8Array[]): Uint8Array {
  const out = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

/** A text string of the format, UTF-16 with its mark, in hexadecimal: any script, nothing to escape. */
export function textString(words: string): string {
  let digits = 'FEFF';
  for (let n = 0; n < words.length; n++) digits += words.charCodeAt(n).toString(16).toUpperCase().padStart(4, '0');
  return `<${digits}>`;
}
