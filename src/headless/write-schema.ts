import { writeFileSync } from 'node:fs';
import { designJsonSchema, SCHEMA_FILE } from '../document/json-schema.ts';

// Writes the published schema anew: npm run schema
writeFileSync(new URL(`../../public/${SCHEMA_FILE}`, import.meta.url), designJsonSchema());
