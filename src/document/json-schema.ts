import { TINIEST } from '../terms/number-range.ts';
import { designSchema } from './design.ts';
import { z } from './zod.ts';

/** Where the published schema stands, relative to the site. */
export const SCHEMA_FILE = 'legroom-design.schema.json';

/** The JSON Schema (2020-12) of a design file as people may write it, as text. Contradictions between fields are not in it, nor is the gap around 0. */
export function designJsonSchema(): string {
  const schema = z.toJSONSchema(designSchema, { io: 'input', target: 'draft-2020-12' });
  const title = 'Legroom design, version 1';
  const description = `Contradictions between fields, and numbers nearer to 0 than ${TINIEST} that are not 0, are refused too.`;
  return `${JSON.stringify({ $schema: schema.$schema, title, description, ...schema }, null, 2)}\n`;
}
