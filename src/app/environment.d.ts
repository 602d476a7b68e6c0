/// <reference types="vite-plugin-pwa/client" />

/** Version of this program, from its manifest, put in by the build. */
declare const __LEGROOM_VERSION__: string;
