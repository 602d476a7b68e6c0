import { binaryStl, boxTriangles } from '../state/mesh/mesh-files.ts';
import { expect, test } from './quiet-page.ts';
import { ShapePage, withoutFileAccess } from './shape-page.ts';

test.beforeEach(({ page }) => withoutFileAccess(page));

test('a design that is saved, reloaded and opened again is the same, byte for byte', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  await shape.enter('Base radius', '111');
  await shape.designName.fill('Bench table, 2nd');
  await shape.designName.press('Enter');
  await expect(page).toHaveTitle('● Bench table, 2nd – Legroom');
  const first = await shape.download();
  expect(first.fileName).toBe('bench-table-2nd.legroom.json');
  expect(JSON.parse(first.text)).toMatchObject({ name: 'Bench table, 2nd', base: { ring: { radius_mm: 111 } } });
  await expect(page).toHaveTitle('Bench table, 2nd – Legroom');

  // an edit is kept 400 ms after it was made, or when the page is left before; let it be kept, then forget all that was
  await page.waitForTimeout(1500);
  await page.evaluate(() => indexedDB.deleteDatabase('legroom-autosave'));
  await page.evaluate(() => localStorage.clear());
  await page.evaluate(() => sessionStorage.clear());
  await page.reload();
  await expect(shape.designName).toHaveValue('Wave table, steady');
  await shape.drop([first.fileName, first.text]);
  await expect(shape.designName).toHaveValue('Bench table, 2nd');
  await expect(shape.field('Base radius')).toHaveValue('111.0');
  expect((await shape.download()).text).toBe(first.text);
});

const BROKEN: readonly [what: string, text: string, says: readonly string[]][] = [
  ['torn JSON', '{"format": "legroom-design", "version": 1, "name": ', ['JSON']],
  ['an empty file', '', ['The file as a whole']],
  ['another format', '{"format": "cake", "version": 1}', ['format', '"cake"', '"legroom-design"']],
  ['a newer version', '{"format": "legroom-design", "version": 2}', ['version', '2']],
];

test('a file is opened by its button; one that is no design is refused with its faults, and the open one stays', async ({
  page,
}) => {
  const shape = new ShapePage(page);
  await shape.open();
  const { text } = await shape.download();
  const choosing = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Open', exact: true }).click();
  const renamed = text.replace('"name": "Wave table, steady"', '"name": "Chosen"');
  await (await choosing).setFiles({ name: 'chosen.json', mimeType: 'application/json', buffer: Buffer.from(renamed) });
  await expect(shape.designName).toHaveValue('Chosen');
  await expect(shape.notices).toContainText('Opened chosen.json');

  await shape.enter('Base radius', '107');
  for (const [what, broken, says] of BROKEN) {
    await test.step(what, async () => {
      await shape.drop(['broken.json', broken]);
      await expect(shape.dialog).toContainText('broken.json');
      for (const words of says) await expect(shape.dialog).toContainText(words);
      await page.keyboard.press('Escape');
      await expect(shape.dialog).toBeHidden();
      await expect(shape.field('Base radius')).toHaveValue('107.0');
      await expect(shape.undo).toHaveAccessibleName(/Base radius/);
    });
  }

  // every fault with its path, value, limit and remedy
  const design = JSON.parse(text);
  design.legs.min_mm = -3;
  design.base.ring.gap_deg = 300;
  design.colour = 'teal';
  await shape.drop(['wrong.json', JSON.stringify(design)]);
  await expect(shape.dialog.getByRole('listitem')).toHaveCount(3);
  const fault = shape.dialog.getByRole('listitem').filter({ hasText: 'base.ring.gap_deg' });
  await expect(fault).toContainText('300');
  await expect(fault).toContainText('120');
  await shape.dialog.getByRole('button', { name: 'Close' }).click();
  await expect(shape.field('Base pair gap')).toHaveValue('20.0');

  // a huge file, unread
  const dropHuge = () => {
    const data = new DataTransfer();
    data.items.add(new File([new Uint8Array(200 * 2 ** 20)], 'huge.json'));
    const started = performance.now();
    document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: data, bubbles: true, cancelable: true }));
    return performance.now() - started;
  };
  expect(await page.evaluate(dropHuge)).toBeLessThan(50);
  await expect(shape.dialog).toContainText('200.0 MiB');
});

test('a dropped mesh goes to the import of the payload; anything else is named, with what is accepted', async ({
  page,
}) => {
  const shape = new ShapePage(page);
  await shape.open();
  const accepted = 'Drop a design file (.json), or a mesh of the payload (.stl, .glb, .gltf).';
  await shape.drop(['photo.png', 'no picture either']);
  await expect(shape.notices).toContainText(`photo.png was not opened: it is neither of what can be. ${accepted}`);
  await shape.drop(['one.json', '{}'], ['two.stl', 'solid']);
  await expect(shape.notices).toContainText(
    '2 files were dropped, and none was opened. Drop one: a design file (.json)',
  );
  await expect(shape.dialog).toBeHidden();

  const cut = Buffer.from(binaryStl(boxTriangles([40, 30, 20]))).subarray(0, 300);
  await shape.drop(['cut.stl', cut]);
  await expect(shape.dialog).toContainText(
    /cut\.stl is 300 bytes long; it must be 684 bytes .+ The design is as it was\./,
  );
  await page.keyboard.press('Escape');

  await shape.drop(['part.stl', Buffer.from(binaryStl(boxTriangles([40, 30, 20])))]);
  const placing = shape.dialog.getByRole('group', { name: 'Place part.stl' });
  await expect(placing).toContainText('12 triangles, 40 × 30 × 20 mm. Its convex hull has 8 corners.');
  await placing.getByRole('button', { name: 'Cancel' }).click();
  await expect(shape.dialog).toBeHidden();
  await shape.drop(['part.stl', Buffer.from(binaryStl(boxTriangles([40, 30, 20])))]);
  await placing.getByRole('button', { name: 'Use as payload' }).click();
  await expect(shape.dialog).toBeHidden();
  await expect(shape.notices).toContainText('part.stl is the payload’s shape now.');
  await expect(shape.undo).toHaveAccessibleName('Undo: Payload from part.stl');
});

test('what was not saved is there again after a reload', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  await shape.enter('Base radius', '93');
  await expect(page).toHaveTitle(/^● /);
  await shape.kept(/"radius_mm":\s*93/);
  // and what was changed in the very moment of leaving
  await shape.enter('Base radius', '94');
  await page.reload();
  await expect(shape.field('Base radius')).toHaveValue('94.0');
  await expect(page).toHaveTitle(/^● /);
  await expect(shape.notices).toContainText('Picked up');

  // a store that is full: leaving asks, and once there is room the work is kept
  await page.evaluate(() => {
    const { put } = IDBObjectStore.prototype;
    Reflect.set(window, 'makeRoom', () => {
      IDBObjectStore.prototype.put = put;
    });
    IDBObjectStore.prototype.put = () => {
      throw new DOMException('The quota has been exceeded.', 'QuotaExceededError');
    };
  });
  await shape.enter('Base radius', '95');
  await expect(shape.notices).toContainText('storage is full');
  await expect(shape.notices.getByRole('button', { name: 'Save to a file' })).toBeVisible();
  const asked = page.waitForEvent('dialog');
  const leaving = page.close({ runBeforeUnload: true });
  const question = await asked;
  expect(question.type()).toBe('beforeunload');
  await question.dismiss();
  await leaving;
  await page.evaluate(() => Reflect.get(window, 'makeRoom')());
  await shape.kept(/"radius_mm":\s*95/);
  await expect(shape.notices).toContainText('kept again');
});

test('two tabs keep their own work', async ({ page, context }) => {
  const first = new ShapePage(page);
  await first.open();
  await first.enter('Base radius', '91');
  const other = await context.newPage();
  const second = new ShapePage(other);
  await second.open();
  await expect(second.field('Base radius')).toHaveValue('100.0');
  await second.enter('Base radius', '122');
  await second.kept(/"radius_mm":\s*122/);
  await page.reload();
  await expect(first.field('Base radius')).toHaveValue('91.0');
  await other.reload();
  await expect(second.field('Base radius')).toHaveValue('122.0');
});

test('a kept design that cannot be read is set aside, not overwritten', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  await shape.enter('Base radius', '93');
  await shape.kept(/"radius_mm":\s*93/);
  const spoil = () =>
    new Promise<string>((done, fail) => {
      const opening = indexedDB.open('legroom-autosave');
      opening.onerror = () => fail(opening.error);
      opening.onsuccess = () => {
        const saves = opening.result.transaction('saves', 'readwrite').objectStore('saves');
        const keys = saves.getAllKeys();
        keys.onsuccess = () => {
          const reading = saves.get(keys.result[0]);
          reading.onsuccess = () => {
            const text = String(reading.result.text).slice(0, 100);
            saves.put({ ...reading.result, text }, keys.result[0]).onsuccess = () => {
              opening.result.close();
              done(text);
            };
          };
        };
      };
    });
  const spoilt = await page.evaluate(spoil);
  await page.reload();
  await expect(shape.notices).toContainText('could not be read');
  await expect(shape.designName).toHaveValue('Wave table, steady');
  const aside = await page.evaluate(
    () =>
      new Promise<unknown[]>((done) => {
        const opening = indexedDB.open('legroom-autosave');
        opening.onsuccess = () => {
          const all = opening.result.transaction('setAside').objectStore('setAside').getAll();
          all.onsuccess = () => done(all.result);
        };
      }),
  );
  expect(aside).toMatchObject([{ record: { text: spoilt } }]);
});
