import { writeFileSync } from 'node:fs';
import { letterFiles } from './letter-files.ts';

// Writes the letters of drawings anew: npm run letters
for (const [name, content] of Object.entries(letterFiles()))
  writeFileSync(new URL(`../build/sheet/${name}`, import.meta.url), content);
