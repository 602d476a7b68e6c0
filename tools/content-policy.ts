import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Plugin } from 'vite';
import { SCROLL_LOCK_NONCE } from '../src/app/scroll-lock-nonce.ts';

const HEADER = 'Content-Security-Policy';

const STYLE = /<style>([\s\S]*?)<\/style>/g;

/**
 * What the built page may load and run: its own files and nothing else. Code made from text (`eval`, `new Function`)
 * and scripts written into the page are refused by `script-src 'self'`.
 */
export function contentPolicy(html: string): string {
  const ownStyles = [...html.matchAll(STYLE)].map(
    ([, rules]) => `'sha256-${createHash('sha256').update(rules).digest('base64')}'`,
  );
  const rules: Readonly<Record<string, readonly string[]>> = {
    'default-src': ["'self'"],
    // compiled code of the program's own files, for the meshes of printed parts; never code made from text
    'script-src': ["'self'", "'wasm-unsafe-eval'"],
    'worker-src': ["'self'"],
    // the style in the page's head by what it says, and the one that holds the page still behind a dialog by its nonce
    'style-src': ["'self'", ...ownStyles, `'nonce-${SCROLL_LOCK_NONCE}'`],
    // pictures that are saved are drawn from the page's own memory
    'img-src': ["'self'", 'blob:', 'data:'],
    // glTF files bring their numbers as data: addresses
    'connect-src': ["'self'", 'blob:', 'data:'],
    'object-src': ["'none'"],
    'base-uri': ["'none'"],
    'form-action': ["'none'"],
  };
  return Object.entries(rules)
    .map(([name, sources]) => [name, ...sources].join(' '))
    .join('; ');
}

/**
 * Writes the policy into the built page as its first word, so that it holds on any static host. A page's own words do
 * not bind its workers; the preview server therefore sends the policy with every file as well, as a host that can
 * should.
 */
export const contentPolicyOfPage = (): Plugin => ({
  name: 'content-policy',
  transformIndexHtml: {
    order: 'post',
    handler: (html, { server }) =>
      server
        ? []
        : [{ tag: 'meta', attrs: { 'http-equiv': HEADER, content: contentPolicy(html) }, injectTo: 'head-prepend' }],
  },
  configurePreviewServer: ({ config, middlewares }) => {
    const policy = contentPolicy(readFileSync(resolve(config.root, config.build.outDir, 'index.html'), 'utf8'));
    middlewares.use((_, response, next) => {
      response.setHeader(HEADER, policy);
      next();
    });
  },
});
