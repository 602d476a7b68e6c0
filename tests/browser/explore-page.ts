import { expect, type Locator, type Page } from '@playwright/test';

/** The place Explore as a person sees it. */
export class ExplorePage {
  readonly page: Page;
  readonly heat: Locator;
  readonly front: Locator;
  readonly ranges: Locator;
  readonly table: Locator;
  readonly readout: Locator;
  readonly start: Locator;
  readonly undo: Locator;
  readonly notices: Locator;

  constructor(page: Page) {
    this.page = page;
    this.heat = page.getByRole('region', { name: 'Heat map' });
    this.front = page.getByRole('region', { name: 'Front', exact: true });
    this.ranges = page.getByRole('region', { name: 'Ranges' });
    this.table = page.getByRole('region', { name: 'Layouts of the front' });
    this.readout = page.getByRole('region', { name: 'Layout pointed at' });
    this.start = page.getByRole('button', { name: 'Start the sweep' });
    this.undo = page.getByRole('button', { name: /^Undo/ });
    this.notices = page.getByRole('region', { name: 'Notices' });
  }

  async open(): Promise<void> {
    await this.page.goto('/');
    await this.enter();
  }

  /** Goes to the place on a page that is open. */
  async enter(): Promise<void> {
    await this.page.getByRole('button', { name: 'Explore' }).click();
    await this.page.getByRole('region', { name: 'Set-up' }).getByRole('tab', { name: 'Sweep' }).waitFor();
  }

  async set(name: string, text: string): Promise<void> {
    const field = this.page.getByRole('spinbutton', { name, exact: true });
    await field.fill(text);
    await field.press('Enter');
  }

  /** Takes so many values of each of the standard sweep's variables. */
  async counts(base: number, platform: number, ratio: number): Promise<void> {
    await this.set('Base gap, number of values', String(base));
    await this.set('Platform gap, number of values', String(platform));
    await this.set('Radius ratio, number of values', String(ratio));
  }

  /** Waits until everything is measured and the last pictures are taken. */
  async finished(layouts: string, time = 60_000): Promise<void> {
    await expect(this.page.getByText(`All ${layouts} layouts are known`)).toBeVisible({ timeout: time });
    await expect(this.ranges.getByText(new RegExp(`of ${layouts} pass`))).toBeVisible();
  }

  /** Layouts that pass the ranges. */
  async passing(): Promise<number> {
    const words = (await this.ranges.getByText(/of .* pass/).textContent()) ?? '';
    return Number(words.split(' of ')[0].replace(/\s/g, ''));
  }

  /** A place on the heat map's cells, as shares from the lower left corner. */
  async onHeat(x: number, y: number): Promise<readonly [number, number]> {
    const box = await this.heat.locator('canvas').boundingBox();
    if (!box) throw new Error('The heat map is not on screen.');
    return [box.x + x * box.width, box.y + (1 - y) * box.height];
  }

  /** Draws a rectangle on the heat map from one place to another. */
  async brushHeat(from: readonly [number, number], to: readonly [number, number]): Promise<void> {
    await this.page.mouse.move(...(await this.onHeat(...from)));
    await this.page.mouse.down();
    await this.page.mouse.move(...(await this.onHeat(...to)), { steps: 6 });
    await this.page.mouse.up();
  }

  /** What a download holds. */
  async download(ask: () => Promise<void>): Promise<Buffer> {
    const arriving = this.page.waitForEvent('download');
    await ask();
    const chunks: Buffer[] = [];
    for await (const chunk of await (await arriving).createReadStream()) chunks.push(Buffer.from(chunk));
    return Buffer.concat(chunks);
  }
}
