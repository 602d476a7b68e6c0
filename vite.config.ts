import react from '@vitejs/plugin-react';
import { VitePWA } from 'vite-plugin-pwa';
import { configDefaults, defineConfig, type Plugin } from 'vitest/config';
import manifest from './package.json' with { type: 'json' };
import { contentPolicyOfPage } from './tools/content-policy.ts';

/** The 3D view's files are asked for together with the page's own instead of after them: they are most of the bytes. */
const preloadView = (): Plugin => ({
  name: 'preload-view',
  transformIndexHtml: {
    order: 'post',
    handler: (_, { bundle = {} }) =>
      Object.values(bundle)
        .filter((file) => file.type === 'chunk' && ['Viewport', 'three'].includes(file.name))
        .map(({ fileName }) => ({
          tag: 'link',
          attrs: { rel: 'modulepreload', crossorigin: true, href: `./${fileName}` },
          injectTo: 'head',
        })),
  },
});

const screens = ['app', 'panels', 'scene', 'state'].map((room) => `tests/${room}/**/*.test.{ts,tsx}`);

export default defineConfig({
  // Relative, so that the built folder runs from any path of any static host.
  base: './',
  define: { __LEGROOM_VERSION__: JSON.stringify(manifest.version) },
  plugins: [
    react(),
    preloadView(),
    contentPolicyOfPage(),
    VitePWA({
      // A new version waits until the person asks for it: a reload must never cost unsaved work.
      registerType: 'prompt',
      injectRegister: false,
      includeAssets: ['icons/*'],
      manifest: {
        name: 'Legroom',
        short_name: 'Legroom',
        description: 'Choose where the six legs of a parallel platform go, before anything is cut.',
        display: 'standalone',
        start_url: './',
        scope: './',
        background_color: '#f6f3ec',
        theme_color: '#f6f3ec',
        categories: ['utilities', 'productivity'],
        icons: [
          { src: 'icons/legroom-192.png', sizes: '192x192', type: 'image/png' },
          { src: 'icons/legroom-512.png', sizes: '512x512', type: 'image/png' },
          { src: 'icons/legroom-maskable-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
          { src: 'icons/legroom.svg', sizes: 'any', type: 'image/svg+xml' },
        ],
      },
      workbox: {
        // Everything: after the first visit nothing is fetched again.
        globPatterns: ['**/*.{js,css,html,svg,png,woff2,wasm,json}'],
        maximumFileSizeToCacheInBytes: 16 * 1024 * 1024,
        cleanupOutdatedCaches: true,
        clientsClaim: true,
      },
    }),
  ],
  worker: { format: 'es' },
  build: {
    target: 'es2022',
    sourcemap: true,
    // three.js alone is past the default of 500 kB.
    chunkSizeWarningLimit: 1000,
    rolldownOptions: {
      output: {
        // Two libraries that change rarely, each in its own file, fetched side by side with the application's own code.
        codeSplitting: {
          groups: [
            { name: 'three', test: /node_modules[\\/]three[\\/]/ },
            { name: 'react', test: /node_modules[\\/](react|react-dom|scheduler)[\\/]/ },
          ],
        },
      },
    },
  },
  preview: { host: '127.0.0.1' },
  test: {
    // Rooms without state of their own: their files share one set of modules, which is read once instead of once a file.
    // Stores and screens begin each file anew.
    projects: [
      {
        extends: true,
        test: { name: 'rooms', isolate: false, include: ['tests/**/*.test.{ts,tsx}'], exclude: screens },
      },
      { extends: true, test: { name: 'screens', include: screens } },
    ],
    exclude: [...configDefaults.exclude, 'tests/browser/**'],
    environment: 'node',
    allowOnly: false,
    passWithNoTests: false,
    // Dense reference counts take seconds; the limit is there for what hangs, not for what is slow.
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
