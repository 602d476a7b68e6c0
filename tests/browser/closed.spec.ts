import { expect, test } from './quiet-page.ts';
import { ShapePage } from './shape-page.ts';

/*
 * That nothing which the program needs is refused is held by every other browser test: a refusal is an error on the
 * console, and the policy stands in the page that all of them drive and, for the workers, in the preview server's
 * answers. Here is what must be refused.
 */
test.use({ expectedMessages: [/Content Security Policy|^request to another host: http:..127[.]0[.]0[.]1:1./] });

test('the built page runs and loads nothing but itself, nor do its workers where the host sends the same policy', async ({
  page,
}) => {
  const html = await (await page.request.get('/')).text();
  const policy =
    /http-equiv="Content-Security-Policy" content="([^"]+)"/.exec(html)?.[1].replaceAll('&#39;', "'") ?? '';
  expect(policy).toMatch(/^default-src 'self'; script-src 'self' 'wasm-unsafe-eval';/);
  expect(policy.replace("'wasm-unsafe-eval'", '')).not.toContain('unsafe');
  // the page itself is to be bound by its own words alone, as on a host that sends no policy
  await page.route(/\/$/, async (route) => {
    const response = await route.fetch();
    const { 'content-security-policy': sent, ...headers } = response.headers();
    expect(sent).toBe(policy);
    await route.fulfill({ response, headers });
  });
  const refused: string[] = [];
  await page.exposeFunction('refusedByPolicy', (what: string) => refused.push(what));
  await page.addInitScript(() =>
    document.addEventListener('securitypolicyviolation', ({ effectiveDirective }) =>
      Reflect.get(window, 'refusedByPolicy')(effectiveDirective),
    ),
  );
  const shape = new ShapePage(page);
  await shape.open();
  await shape.settled();
  await page.keyboard.press('?');
  await expect(shape.dialog).toBeVisible();
  await page.keyboard.press('Escape');
  await shape.enter('Base radius', '(3 in + 20 mm) / 0.9');
  await expect(shape.field('Base radius')).toHaveValue('106.889');
  // the driver lifts the policy from what it runs itself, not from what runs after it
  const inWorker = await page.workers()[0].evaluate(async () => {
    await new Promise((later) => setTimeout(later));
    try {
      return String(new Function('return 1')());
    } catch (error) {
      return error instanceof Error ? error.name : '';
    }
  });
  expect(inWorker).toBe('EvalError');
  expect(refused).toEqual([]);

  const attempts = await page.evaluate(async () => {
    const outcomes: Record<string, string> = {};
    await new Promise((later) => setTimeout(later));
    try {
      new Function('return 1');
    } catch (error) {
      outcomes['code from text'] = error instanceof Error ? error.name : '';
    }
    await fetch('http://127.0.0.1:1/').catch((error: unknown) => {
      outcomes['another host'] = error instanceof Error ? error.name : '';
    });
    const script = document.createElement('script');
    script.textContent = 'window.ranInline = true';
    document.head.append(script);
    outcomes['inline script'] = String(Reflect.get(window, 'ranInline'));
    const holder = document.createElement('div');
    holder.innerHTML = '<p style="color: rgb(1, 2, 3)">text</p><img src="http://127.0.0.1:1/x.png">';
    document.body.append(holder);
    outcomes['style in markup'] = holder.querySelector('p')?.style.color ?? '';
    return outcomes;
  });
  expect(attempts).toEqual({
    'code from text': 'EvalError',
    'another host': 'TypeError',
    'inline script': 'undefined',
    'style in markup': '',
  });
  await expect
    .poll(() => [...new Set(refused)].sort())
    .toEqual(['connect-src', 'img-src', 'script-src', 'script-src-elem', 'style-src-attr']);
});
