/** Builds the page as it is published, serves it on the first free port from 4173 on, and says where. */
import { build, preview } from 'vite';

await build({ logLevel: 'warn' });
const server = await preview({ preview: { port: 4173, strictPort: false } });
const address = server.resolvedUrls?.local[0];
if (address === undefined) throw new Error('The server started but gives no address.');
console.log(`Legroom is ready at ${address} (Ctrl+C stops it)`);
