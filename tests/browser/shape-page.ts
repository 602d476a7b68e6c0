import { expect, type Locator, type Page } from '@playwright/test';

/** Time without a frame after which the drawing counts as still [ms]. */
const STILL_TIME = 700;

/** Controls on the page, at most. */
const MOST_TABS = 300;

/** The place Shape as a person sees it: everything by its name on screen. */
export class ShapePage {
  readonly page: Page;
  readonly verdict: Locator;
  readonly reachCell: Locator;
  readonly view: Locator;
  readonly canvas: Locator;
  readonly legs: Locator;
  readonly designName: Locator;
  readonly undo: Locator;
  readonly redo: Locator;
  readonly dialog: Locator;
  readonly notices: Locator;

  constructor(page: Page) {
    this.page = page;
    this.verdict = page.getByRole('region', { name: 'Verdict' });
    this.reachCell = this.verdict.getByRole('button', { name: /^Reach, (home|present) orientation/ });
    this.view = page.getByRole('main', { name: 'Platform' });
    this.canvas = this.view.locator('canvas');
    this.legs = page.getByRole('region', { name: 'Legs' });
    this.designName = page.getByRole('textbox', { name: 'Name of the design' });
    this.undo = page.getByRole('button', { name: /^Undo/ });
    this.redo = page.getByRole('button', { name: /^Redo/ });
    this.dialog = page.getByRole('dialog');
    this.notices = page.getByRole('region', { name: 'Notices' });
  }

  /** Opens the page and waits until the reach stands in the verdict strip. */
  async open(): Promise<void> {
    await this.page.goto('/');
    await this.reachNumber();
  }

  slider(name: string): Locator {
    return this.page.getByRole('slider', { name: `${name}, slider` });
  }

  field(name: string): Locator {
    return this.page.getByRole('spinbutton', { name, exact: true });
  }

  /** Presses the mouse on a slider at a share of its length; what comes back drags it to another. Release with `mouse.up`. */
  async grab(name: string, share: number): Promise<(share: number) => Promise<void>> {
    const slider = this.slider(name);
    await slider.scrollIntoViewIfNeeded();
    const box = await slider.boundingBox();
    if (!box) throw new Error(`The slider ${name} is not on screen.`);
    const pull = (to: number) => this.page.mouse.move(box.x + to * box.width, box.y + box.height / 2);
    await pull(share);
    await this.page.mouse.down();
    return pull;
  }

  /** Goes forward by Tab until a control has the focus. */
  async tabTo(control: Locator): Promise<void> {
    for (let n = 0; n < MOST_TABS; n++) {
      if (await control.evaluate((element) => element === document.activeElement)) return;
      await this.page.keyboard.press('Tab');
    }
    throw new Error('Tab does not get there.');
  }

  /** Types a value into a number's field and takes it. */
  async enter(name: string, text: string): Promise<void> {
    await this.field(name).fill(text);
    await this.field(name).press('Enter');
  }

  /** Drops files on the page, each a name and its text or bytes. */
  async drop(...files: readonly (readonly [string, string | Buffer])[]): Promise<void> {
    const transfer = await this.page.evaluateHandle(
      (contents) => {
        const data = new DataTransfer();
        for (const [name, base64] of contents) {
          const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
          data.items.add(new File([bytes], name));
        }
        return data;
      },
      files.map(([name, content]) => [name, Buffer.from(content).toString('base64')] as const),
    );
    for (const type of ['dragenter', 'dragover', 'drop']) {
      await this.page.dispatchEvent('body', type, { dataTransfer: transfer });
    }
  }

  /** Saves as a browser without file access does, and gives back what was downloaded. */
  async download(): Promise<{ readonly fileName: string; readonly text: string }> {
    const arriving = this.page.waitForEvent('download');
    await this.page.keyboard.press('ControlOrMeta+S');
    const download = await arriving;
    const chunks: Buffer[] = [];
    for await (const chunk of await download.createReadStream()) chunks.push(Buffer.from(chunk));
    return { fileName: download.suggestedFilename(), text: Buffer.concat(chunks).toString('utf8') };
  }

  /** Waits until the browser keeps a design with this in its text. */
  async kept(pattern: RegExp): Promise<void> {
    const texts = () =>
      this.page.evaluate(
        () =>
          new Promise<string>((done, fail) => {
            const opening = indexedDB.open('legroom-autosave');
            opening.onerror = () => fail(opening.error);
            opening.onsuccess = () => {
              const reading = opening.result.transaction('saves').objectStore('saves').getAll();
              reading.onerror = () => fail(reading.error);
              reading.onsuccess = () => {
                opening.result.close();
                done(reading.result.map(({ text }) => String(text)).join());
              };
            };
          }),
      );
    await expect.poll(texts).toMatch(pattern);
  }

  /** Frames that the 3D view has drawn; the canvas counts them. */
  async framesDrawn(): Promise<number> {
    return Number(await this.canvas.getAttribute('data-frames'));
  }

  /** Waits until everything is computed and drawn and nothing moves any more. */
  async settled(): Promise<void> {
    await this.reachNumber();
    for (const cell of await this.verdict.getByRole('button').all()) {
      await expect(cell).not.toHaveAttribute('data-stale', 'true');
    }
    let last = -1;
    await expect(async () => {
      const before = last;
      last = await this.framesDrawn();
      expect(last).toBeGreaterThan(0);
      expect(last).toBe(before);
    }).toPass({ intervals: [STILL_TIME], timeout: 60_000 });
  }

  /** Number of different colours on screen in the 3D view: a blank canvas has one. */
  async coloursInView(): Promise<number> {
    const picture = (await this.canvas.screenshot()).toString('base64');
    return this.page.evaluate(async (data) => {
      const bitmap = await createImageBitmap(await (await fetch(`data:image/png;base64,${data}`)).blob());
      const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d');
      if (!context) throw new Error('no 2D canvas');
      context.drawImage(bitmap, 0, 0);
      const { data: pixels } = context.getImageData(0, 0, bitmap.width, bitmap.height);
      return new Set(new Uint32Array(pixels.buffer)).size;
    }, picture);
  }

  /** The reach that the verdict strip states for the design as it is now [cm3]. */
  async reachNumber(): Promise<number> {
    await expect(this.reachCell).toHaveAttribute('data-stale', 'false');
    await expect(this.reachCell).toContainText('cm³');
    const stated = /([\d.,\s]+)cm³/.exec((await this.reachCell.textContent()) ?? '')?.[1];
    const number = Number(stated?.replace(/[,\s]/g, ''));
    if (!Number.isFinite(number)) throw new Error(`No reach in "${stated}".`);
    return number;
  }
}

/** Makes the page one of a browser that can only download and choose files; its dialogs can be driven by a test. */
export async function withoutFileAccess(page: Page): Promise<void> {
  await page.addInitScript(() => {
    for (const name of ['showOpenFilePicker', 'showSaveFilePicker', 'showDirectoryPicker']) {
      Reflect.deleteProperty(window, name);
    }
  });
}
