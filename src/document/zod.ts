import { config, z } from 'zod';

/*
 * Zod otherwise writes functions as text and compiles them, which the page's content policy forbids; even the try is
 * reported. The setting is read when a schema is made, so every schema takes `z` from here.
 */
config({ jitless: true });

export { z };
