import { expect, test } from './quiet-page.ts';
import { ShapePage } from './shape-page.ts';

/** What a browser may lack, refuse or never answer, and what the page then says; it works all the same. */
const LACKS: readonly (readonly [what: string, lack: () => void, says: RegExp | null])[] = [
  [
    'locks and workers that never answer',
    () => {
      const never = () => new Promise<never>(() => undefined);
      Object.defineProperty(navigator, 'locks', { value: { request: never, query: never } });
    },
    null,
  ],
  [
    'a database that never opens, and no storage',
    () => {
      Object.defineProperty(IDBFactory.prototype, 'open', { value: () => new EventTarget() });
      for (const name of ['localStorage', 'sessionStorage']) {
        Object.defineProperty(window, name, {
          get: () => {
            throw new DOMException('refused', 'SecurityError');
          },
        });
      }
    },
    /cannot keep unfinished work; save the design to a file/,
  ],
  [
    'nothing of all this',
    () => {
      for (const name of ['indexedDB', 'localStorage', 'sessionStorage', 'Worker']) {
        Object.defineProperty(window, name, { value: undefined });
      }
      Object.defineProperty(navigator, 'locks', { value: undefined });
      Object.defineProperty(navigator, 'serviceWorker', { value: undefined });
    },
    /starts no workers for the calculation/,
  ],
];

test('the page works as far as it can in a browser without locks, databases, storage or workers', async ({
  context,
}) => {
  for (const [what, lack, says] of LACKS) {
    await test.step(what, async () => {
      const page = await context.newPage();
      await page.addInitScript(lack);
      const shape = new ShapePage(page);
      await page.goto('/');
      await shape.enter('Base radius', '93');
      await expect(page).toHaveTitle(/^● /);
      await expect(shape.legs.getByRole('row')).toHaveCount(7);
      if (says) await expect(shape.notices).toContainText(says);
      await page.getByRole('button', { name: 'Theme' }).click();
      await page.getByRole('menuitemradio', { name: 'Dark' }).click();
      await expect(page.locator('html')).toHaveAttribute('data-theme', 'dark');
      await page.close();
    });
  }
});
