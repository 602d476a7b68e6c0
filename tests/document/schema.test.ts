import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { DEMO_NAMES, DEMOS } from '../../src/document/demos.ts';
import { designSchema } from '../../src/document/design.ts';
import { designJsonSchema, SCHEMA_FILE } from '../../src/document/json-schema.ts';
import { samples } from './sample-files.ts';

const file = readFileSync(new URL(`../../public/${SCHEMA_FILE}`, import.meta.url), 'utf8');
// a general-purpose JSON Schema validator as the referee, in its 2020-12 dialect
const accepts = new Ajv2020({ strict: true, strictTypes: false }).compile(JSON.parse(file));

/** The parsed file, or null when it is not JSON in UTF-8. */
function parsed(bytes: Uint8Array): { readonly value: unknown } | null {
  try {
    return { value: JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes)) };
  } catch {
    return null;
  }
}

describe('the published schema', () => {
  it('is what `npm run schema` writes', () => {
    expect(file).toBe(designJsonSchema());
  });

  it('declares its dialect', () => {
    expect(JSON.parse(file)).toMatchObject({ $schema: 'https://json-schema.org/draft/2020-12/schema' });
  });

  it.each(samples('valid'))('accepts the valid sample $name', ({ bytes }) => {
    accepts(parsed(bytes)?.value);
    expect(accepts.errors).toBeNull();
  });

  it.each(DEMO_NAMES)('accepts the demo %s', (name) => {
    accepts(DEMOS[name]);
    expect(accepts.errors).toBeNull();
  });

  const readable = samples('invalid').filter(({ bytes }) => parsed(bytes) !== null);

  it.each(readable)('agrees with the validator on the invalid sample $name', ({ name, bytes }) => {
    const value = parsed(bytes)?.value;
    // contradictions between fields are beyond a schema, and so is a gap around 0; their samples say so in their name
    const crossed = name.startsWith('crossed-');
    expect(designSchema.safeParse(value).success).toBe(crossed);
    expect(accepts(value)).toBe(crossed || name.startsWith('tiny-'));
  });
});
