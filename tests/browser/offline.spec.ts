import { expect, test } from './quiet-page.ts';

test.use({ serviceWorkers: 'allow', expectedMessages: [/ERR_INTERNET_DISCONNECTED .*not-stored\.txt/] });

test('after one visit the program starts without a network', async ({ page, context }) => {
  await page.goto('/');
  // The worker answers for the page only once everything is stored.
  await page.evaluate(async () => {
    const { active } = await navigator.serviceWorker.ready;
    if (active === null) throw new Error('No service worker is active.');
    if (active.state === 'activated') return;
    await new Promise((resolve) => active.addEventListener('statechange', resolve, { once: true }));
  });
  await context.setOffline(true);
  // A request past the worker's store does fail, so what follows is not served by the network.
  await expect(page.evaluate(() => fetch('./not-stored.txt').then(() => 'answered'))).rejects.toThrow();

  await page.reload();
  await expect(page).toHaveTitle(/Legroom/);
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
});
