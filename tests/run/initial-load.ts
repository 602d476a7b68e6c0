import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';

/**
 * Most that a visitor may have to wait for before the platform is drawn [kB], packed as a host sends it. The aim is 450; some 100 of
 * this are what @react-three/fiber brings: a second reconciler, and three's whole catalogue.
 */
export const MOST_INITIAL_KB = 550;

/** What is packed as gzip does at its best level, for every file that the built page names: scripts, preloads, styles, and the page [bytes]. */
export function initialLoad(dist: string): number {
  const html = readFileSync(join(dist, 'index.html'), 'utf8');
  const named = new Set([...html.matchAll(/(?:src|href)="\.\/([^"]+\.(?:js|css))"/g)].map(([, path]) => path));
  const files = [html, ...[...named].map((path) => readFileSync(join(dist, path)))];
  return files.reduce((sum, content) => sum + gzipSync(content, { level: 9 }).length, 0);
}

/** Says how large the first load is, and what is wrong with that. */
export function faultOfInitialLoad(dist: string): string | undefined {
  const kB = initialLoad(dist) / 1000;
  console.log(`initial load: ${kB.toFixed(1)} kB packed, of ${MOST_INITIAL_KB} kB`);
  if (kB <= MOST_INITIAL_KB) return undefined;
  return `the page loads ${kB.toFixed(1)} kB before its first view, more than ${MOST_INITIAL_KB} kB; load parts later (src/app/later.tsx)`;
}
