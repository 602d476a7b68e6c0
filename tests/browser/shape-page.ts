import { expect, type Locator, type Page } from '@playwright/test';

/** The place Shape as a person sees it: everything by its name on screen. */
export class ShapePage {
  readonly page: Page;
  readonly verdict: Locator;
  readonly view: Locator;
  readonly legs: Locator;
  readonly designName: Locator;
  readonly undo: Locator;
  readonly redo: Locator;
  readonly dialog: Locator;
  readonly notices: Locator;

  constructor(page: Page) {
    this.page = page;
    this.verdict = page.getByRole('region', { name: 'Verdict' });
    this.view = page.getByRole('main', { name: 'Platform' });
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

  /** Types a value into a number's field and takes it. */
  async enter(name: string, text: string): Promise<void> {
    await this.field(name).fill(text);
    await this.field(name).press('Enter');
  }

  /** Drops a file with this text on the page. */
  async drop(fileName: string, text: string): Promise<void> {
    const transfer = await this.page.evaluateHandle(
      ([name, content]) => {
        const data = new DataTransfer();
        data.items.add(new File([content], name, { type: 'application/json' }));
        return data;
      },
      [fileName, text],
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

  /** The reach that the verdict strip states for the design as it is now [cm3]. */
  async reachNumber(): Promise<number> {
    const cell = this.verdict.getByRole('button', { name: /^Reach at (home|present) orientation/ });
    await expect(cell).toHaveAttribute('data-stale', 'false');
    await expect(cell).toContainText('cm³');
    const stated = /([\d.,\s]+)cm³/.exec((await cell.textContent()) ?? '')?.[1];
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
