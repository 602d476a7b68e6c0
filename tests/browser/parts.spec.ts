import { binaryStl, boxTriangles } from '../state/mesh/mesh-files.ts';
import { expect, test } from './quiet-page.ts';
import { ShapePage, withoutFileAccess } from './shape-page.ts';

/** A box of 40 by 30 by 20 mm, upright, as a program would write it. */
const BOX_STL = {
  name: 'instrument.stl',
  mimeType: 'model/stl',
  buffer: Buffer.from(binaryStl(boxTriangles([40, 30, 20]))),
};

test('joints of other kinds are drawn and judged by their own limits', async ({ page }, info) => {
  const shape = new ShapePage(page);
  await shape.open();
  const kinds = (plate: string) => page.getByRole('group', { name: `${plate} joint kind` });
  await kinds('Base').getByRole('radio', { name: 'Rod end' }).check();
  await shape.enter('Base joint tilt limit', '12');
  await expect(shape.legs.getByRole('columnheader', { name: /^Base bolt tilt ≤ 12 deg/ })).toBeVisible();
  await expect(shape.undo).toHaveAccessibleName('Undo: Base joint tilt limit 12 deg');
  await kinds('Platform').getByRole('radio', { name: 'Universal' }).check();
  await shape.enter('Platform joint second tilt limit', '20');
  await expect(shape.legs.getByRole('columnheader', { name: /^Platform 1\/2 ≤ 25\/20 deg/ })).toBeVisible();

  // sideways: the bolts across the legs stop it, and the drawing and the strip say by how much
  await shape.enter('Tool x', '60');
  await expect(shape.verdict).toContainText(/base joint tilted across its bolt too far \(\d+\.\d deg, limit 12\)/);
  await expect(page.getByText(/^leg \d base bolt tilt \d+\.\d of 12 deg$/).first()).toBeAttached();
  await page.screenshot({ path: info.outputPath('joints.png') });

  // universal joints at both ends twist the legs; the lead of the screw says what that does to their lengths
  await kinds('Base').getByRole('radio', { name: 'Universal' }).check();
  await shape.enter('Base joint tilt limit', '45');
  await shape.enter('Tool x', '10');
  await shape.enter('Yaw', '20');
  const twist = shape.legs.getByRole('row').nth(1);
  await expect(twist).toContainText(/[+-]\d+\.\d(within|▲)/);
  await page.getByRole('button', { name: 'Barrel and screw' }).click();
  await shape.enter('Screw lead', '8');
  await expect(twist).toContainText(/[+-]\d+\.\d \/ [+-]\d+\.\d{3}(within|▲)/);
});

test('keep-outs, plates and an imported payload are drawn and change the clearance', async ({ page }, info) => {
  await withoutFileAccess(page);
  const shape = new ShapePage(page);
  await shape.open();
  const clearance = page.getByRole('button', { name: /^Clearance/ }).first();
  await clearance.click();
  const mark = page.getByText(/^leg \d \w+ to .+ \d+\.\d mm$/).first();
  // beside the platform, between the two nearest bodies
  await expect(shape.view.getByText(/^leg 5 barrel to leg 6 barrel 12\.7 mm$/)).toBeAttached();
  await expect(mark).toBeAttached();
  await page.getByRole('button', { name: 'Add a cylinder' }).click();
  await shape.enter('Keep-out 1 to z', '110');
  await shape.enter('Keep-out 1 diameter', '115');
  await expect(shape.view.getByText(/^leg \d \w+ to cylinder 1 \d+\.\d mm$/)).toBeAttached();
  await shape.enter('Keep-out 1 diameter', '150');
  await expect(shape.view.getByText(/^leg \d \w+ meets cylinder 1$/)).toBeAttached();
  await expect(shape.verdict).toContainText(/leg \d \w+ meets cylinder 1/i);
  await page.getByRole('button', { name: 'Remove keep-out 1' }).click();

  await page.getByRole('button', { name: 'Base plate body' }).click();
  await page.getByRole('group', { name: 'Base plate outline' }).getByRole('radio', { name: 'Corners' }).check();
  await shape.enter('Base plate opening', '60');
  await expect(shape.undo).toHaveAccessibleName('Undo: Base plate opening 60 mm');

  await page
    .getByRole('button', { name: /^Load and forces/ })
    .first()
    .click();
  await page.getByRole('button', { name: 'Payload shape' }).click();
  const file = page.getByLabel('Import STL, GLB or glTF… as the payload');
  const before = await shape.undo.getAttribute('aria-label');
  await file.setInputFiles({ ...BOX_STL, name: 'cut.stl', buffer: BOX_STL.buffer.subarray(0, 300) });
  await expect(
    page.getByText(/cut\.stl is 300 bytes long; it must be 684 bytes .+ The design is as it was\./),
  ).toBeVisible();
  await file.setInputFiles({ name: 'nothing.stl', mimeType: 'model/stl', buffer: Buffer.from(binaryStl([])) });
  await expect(page.getByText(/nothing\.stl is without triangles; it must be /)).toBeVisible();
  expect(await shape.undo.getAttribute('aria-label')).toBe(before);

  await file.setInputFiles(BOX_STL);
  const placing = page.getByRole('group', { name: 'Place instrument.stl' });
  await expect(placing).toContainText('12 triangles, 40 × 30 × 20 mm. Its convex hull has 8 corners.');
  await placing.getByRole('group', { name: 'Unit of the mesh' }).getByRole('radio', { name: 'm', exact: true }).check();
  await expect(placing).toContainText('check the unit');
  await placing
    .getByRole('group', { name: 'Unit of the mesh' })
    .getByRole('radio', { name: 'mm', exact: true })
    .check();
  const bare = await shape.coloursInView();
  await placing.getByRole('button', { name: 'Use as payload' }).click();
  await expect(page.getByText(/The design keeps the convex hull of instrument\.stl \(8 corners\)/)).toBeVisible();
  await expect(shape.undo).toHaveAccessibleName('Undo: Payload from instrument.stl');
  await shape.settled();
  expect(await shape.coloursInView()).not.toBe(bare);
  await shape.enter('Payload middle x', '65');
  await shape.enter('Payload middle z', '-50');
  await expect(shape.view.getByText(/^leg \d \w+ to payload \d+\.\d mm$/)).toBeAttached();
  const { text } = await shape.download();
  expect(JSON.parse(text).payload.shape.hull).toMatchObject({ source: 'instrument.stl' });
  expect(text.length).toBeLessThan(8000);

  // a closed mesh knows where a uniform body's centre is: the middle of a box, wherever the fields put it
  await expect(page.getByText('that of the closed mesh as a uniform body')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Is the centre of mass' })).toBeDisabled();
  await page.screenshot({ path: info.outputPath('bodies.png') });
});

/** A pyramid of 40 by 40 mm and 60 mm height, upright: closed, with its centre a quarter of the way up. */
const PYRAMID = [
  ...[0, 1, 2, 3].flatMap((n) => {
    const rim = [-20, -20, 0, 20, -20, 0, 20, 20, 0, -20, 20, 0, -20, -20, 0];
    return [...rim.slice(3 * n, 3 * n + 6), 0, 0, 60];
  }),
  ...[-20, -20, 0, -20, 20, 0, 20, 20, 0],
  ...[-20, -20, 0, 20, 20, 0, 20, -20, 0],
];

test('an imported mesh is drawn again after a reload; where the browser lost it the hull is, and the panel says so', async ({
  page,
}, info) => {
  const shape = new ShapePage(page);
  await shape.open();
  await shape.drop(['pyramid.stl', Buffer.from(binaryStl(PYRAMID))]);
  await shape.dialog.getByRole('button', { name: 'Use as payload' }).click();
  const open = async () => {
    await page
      .getByRole('button', { name: /^Load and forces/ })
      .first()
      .click();
    await page.getByRole('button', { name: 'Payload shape' }).click();
  };
  await open();
  await expect(page.getByText('They are drawn, and kept in this browser only.')).toBeVisible();
  // bottom on the plate: the centre of mass h / 4 above it, where the middle of the box is at h / 2
  const middle = Number(await shape.field('Payload middle z').inputValue());
  await expect(shape.field('Centre of mass z')).toHaveValue((middle - 15).toFixed(1));

  await shape.kept(/pyramid\.stl/);
  await page.reload();
  await open();
  await expect(page.getByText('They are drawn, and kept in this browser only.')).toBeVisible();
  await shape.settled();
  await page.screenshot({ path: info.outputPath('kept.png') });

  await page.evaluate(
    () =>
      new Promise<void>((done, fail) => {
        const opening = indexedDB.open('legroom-meshes');
        opening.onerror = () => fail(opening.error);
        opening.onsuccess = () => {
          const transaction = opening.result.transaction(['entries', 'triangles'], 'readwrite');
          for (const name of ['entries', 'triangles']) transaction.objectStore(name).clear();
          transaction.oncomplete = () => {
            opening.result.close();
            done();
          };
        };
      }),
  );
  await page.reload();
  await open();
  await expect(
    page.getByText(/They are not in this browser, so the hull is drawn; import the file again/),
  ).toBeVisible();
  await expect(shape.notices).not.toContainText('pyramid.stl');
});

test('the figures of common practice for this layout stand on screen, and a leg can differ', async ({ page }) => {
  const shape = new ShapePage(page);
  await shape.open();
  // 20/20 deg, 100 and 70 mm, 150 mm: legs of 163.3 mm; legs 0.05 mm off, worst 159/167/54 um and 54/60/104 mdeg
  await expect(shape.legs.getByRole('row').nth(1)).toContainText('163.3');
  const accuracy = page.getByRole('button', { name: /^Accuracy/ }).first();
  await accuracy.click();
  await page.getByRole('button', { name: /^Worst shift at the tool/ }).click();
  await expect(page.getByText(/at most 0\.159, 0\.167, 0\.0544 mm/)).toBeVisible();
  await page.getByRole('button', { name: /^Worst turn/ }).click();
  await expect(page.getByText(/at most 0\.0537, 0\.0596, 0\.104 deg/)).toBeVisible();
  // six parallel legs each 1 mm off leave about 1 mm (common practice): 163.326 / 150 upward, and no turn
  await expect(
    page.getByText(/All six legs 1 mm longer move the tool by 0, 0, 1\.09 mm and turn it by 0 deg/),
  ).toBeVisible();

  await page.getByRole('button', { name: 'Errors of single legs' }).click();
  await shape.enter('Leg 3 zero error', '0.1');
  await expect(shape.undo).toHaveAccessibleName('Undo: Leg 3 zero error 0.1 mm');
  await expect(page.getByRole('button', { name: /^Worst shift at the tool/ })).not.toContainText('0.167 mm');
  await page.getByRole('button', { name: 'Make all legs alike' }).click();
  await expect(page.getByRole('button', { name: /^Worst shift at the tool/ })).toContainText('0.167 mm');

  // 2 kg: 3.6 N a leg at home, pushes of 19 N and pulls of 16 N in turn at yaw 75
  await page
    .getByRole('button', { name: /^Load and forces/ })
    .first()
    .click();
  await shape.enter('Payload mass', '2');
  const forces = page.getByRole('table', { name: 'Force in each leg' });
  for (let leg = 1; leg <= 6; leg++) await expect(forces).toContainText(`Leg ${leg}3.56 N push`);
  await shape.enter('Yaw', '75');
  // rounded to whole newtons as there
  for (let leg = 1; leg <= 6; leg += 2) {
    await expect(forces).toContainText(`Leg ${leg}19.1 N push`);
    await expect(forces).toContainText(`Leg ${leg + 1}15.6 N pull`);
  }
  await page.getByRole('button', { name: 'Return home' }).click();

  // upright mounts: every leg leans by 23.3 deg at home
  await page.getByRole('group', { name: 'Base joint mounts' }).getByRole('radio', { name: 'Square' }).check();
  await expect(shape.legs.getByRole('row').nth(4)).toContainText('23.3');

  // a mass below 0 and a stiffness of 0 are refused where they are typed
  await shape.enter('Payload mass', '-2');
  await expect(page.getByText(/−2\.0 kg is below the limit of 0\.0 kg\..*Still 2\.0 kg/)).toBeVisible();
  await page
    .getByRole('button', { name: /^Stiffness/ })
    .first()
    .click();
  await page.getByRole('button', { name: /^Start with 1000/ }).click();
  await shape.enter('Leg stiffness', '0');
  await expect(page.getByText(/0 N\/mm is below the limit of 0\.000001 N\/mm\..*Still 1000 N\/mm/)).toBeVisible();
});
