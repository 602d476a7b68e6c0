import type { CDPSession, Page } from '@playwright/test';

/** What the page holds after a collection. */
export interface Held {
  /** Live script objects [bytes]. */
  readonly heap: number;
  readonly listeners: number;
  readonly nodes: number;
  /** WebGL objects that were made and neither deleted nor lost with their context. */
  readonly webgl: number;
}

/** Counts WebGL objects from the start of the page on; in the page. */
export async function countWebGl(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const live = new Set<unknown>();
    Reflect.set(window, 'liveWebGlObjects', live);
    const { prototype } = WebGL2RenderingContext;
    for (const kind of [
      'Buffer',
      'Texture',
      'Program',
      'Shader',
      'VertexArray',
      'Framebuffer',
      'Renderbuffer',
      'Query',
    ]) {
      const make = Reflect.get(prototype, `create${kind}`);
      const drop = Reflect.get(prototype, `delete${kind}`);
      Reflect.set(prototype, `create${kind}`, function (this: unknown, ...rest: unknown[]) {
        const made: unknown = Reflect.apply(make, this, rest);
        if (made !== null) live.add(made);
        return made;
      });
      Reflect.set(prototype, `delete${kind}`, function (this: unknown, object: unknown) {
        live.delete(object);
        return Reflect.apply(drop, this, [object]);
      });
    }
    document.addEventListener('webglcontextlost', () => live.clear(), { capture: true });
  });
}

/** Collects garbage and reads what is left. */
export async function held(page: Page, session: CDPSession): Promise<Held> {
  // what a first collection sets free may hold more
  for (let n = 0; n < 3; n++) await session.send('HeapProfiler.collectGarbage');
  const { metrics } = await session.send('Performance.getMetrics');
  const metric = (name: string) => metrics.find((one) => one.name === name)?.value ?? Number.NaN;
  const webgl = await page.evaluate(() => {
    const live: unknown = Reflect.get(window, 'liveWebGlObjects');
    return live instanceof Set ? live.size : Number.NaN;
  });
  return {
    heap: metric('JSHeapUsedSize'),
    listeners: metric('JSEventListeners'),
    nodes: metric('Nodes'),
    webgl,
  };
}
