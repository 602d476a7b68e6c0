import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import puppeteer, { type Browser, type Page } from 'puppeteer-core';
import { type PreviewServer, preview } from 'vite';
import { expect } from 'vitest';

/** Longest that something on the page is waited for [ms]. */
const PATIENCE = 60_000;

/** The production build in Firefox, driven over WebDriver BiDi (W3C), found by the names that a screen reader says. */
export class FirefoxPage {
  readonly page: Page;
  /** Console messages of any kind that is more than information, and uncaught errors. */
  readonly heard: string[] = [];
  readonly #server: PreviewServer;
  readonly #browser: Browser;
  readonly #downloads: string;

  private constructor(server: PreviewServer, browser: Browser, page: Page, downloads: string) {
    this.#server = server;
    this.#browser = browser;
    this.#downloads = downloads;
    this.page = page;
    page.on('console', (message) => {
      if (['warn', 'error', 'assert'].includes(message.type())) this.heard.push(`${message.type()}: ${message.text()}`);
    });
    page.on('pageerror', (error) => this.heard.push(`uncaught: ${String(error)}`));
  }

  static async open(executablePath: string): Promise<FirefoxPage> {
    const server = await preview({ preview: { host: '127.0.0.1', port: 0 }, logLevel: 'silent' });
    const downloads = mkdtempSync(join(tmpdir(), 'legroom-firefox-'));
    const browser = await puppeteer.launch({
      browser: 'firefox',
      executablePath,
      headless: true,
      extraPrefsFirefox: {
        'browser.download.folderList': 2,
        'browser.download.dir': downloads,
        'intl.accept_languages': 'en-GB',
      },
    });
    const page = await browser.newPage();
    await page.setViewport({ width: 1366, height: 768 });
    const firefox = new FirefoxPage(server, browser, page, downloads);
    await page.goto(server.resolvedUrls?.local[0] ?? '');
    return firefox;
  }

  async close(): Promise<void> {
    await this.#browser.close();
    await this.#server.close();
    rmSync(this.#downloads, { recursive: true });
  }

  /** Value of a control, by its name. */
  value(name: string): Promise<string> {
    return this.page.$eval(`input[aria-label="${name}"]`, (input) =>
      input instanceof HTMLInputElement ? input.value : '',
    );
  }

  text(selector: string): Promise<string> {
    return this.page.$eval(selector, (element) => element.textContent ?? '');
  }

  /** Waits until `read` gives what is wanted. */
  async becomes(read: () => Promise<string>, wanted: string | RegExp): Promise<void> {
    await expect.poll(read, { timeout: PATIENCE }).toMatch(wanted);
  }

  async enter(name: string, text: string): Promise<void> {
    await this.page.locator(`input[aria-label="${name}"]:not([type="range"])`).fill(text);
    await this.page.keyboard.press('Enter');
  }

  /** Clicks the first button with these words, or this name. */
  async click(words: string): Promise<void> {
    const found = await this.page.waitForFunction(
      (wanted) =>
        [...document.querySelectorAll('button, [role="tab"], a')].find(
          (element) => element.getAttribute('aria-label') === wanted || element.textContent?.trim() === wanted,
        ),
      { timeout: PATIENCE },
      words,
    );
    const element = found.asElement();
    if (!element) throw new Error(`There is no button "${words}".`);
    await this.page.evaluate((button) => button instanceof HTMLElement && button.click(), element);
  }

  /** Presses a key with a modifier. */
  async chord(modifier: 'Control' | 'Shift', key: 's' | 'z'): Promise<void> {
    await this.page.keyboard.down(modifier);
    await this.page.keyboard.press(key);
    await this.page.keyboard.up(modifier);
  }

  /** The text of the newest file that was saved. */
  async saved(): Promise<string> {
    const whole = () => readdirSync(this.#downloads).filter((name) => name.endsWith('.json'));
    await expect.poll(() => whole().length, { timeout: PATIENCE }).toBeGreaterThan(0);
    let text = '';
    await expect
      .poll(() => {
        text = readFileSync(join(this.#downloads, whole()[0] ?? ''), 'utf8');
        return text.length;
      })
      .toBeGreaterThan(0);
    return text;
  }

  /** Drops a file on the page. */
  async drop(name: string, text: string): Promise<void> {
    await this.page.evaluate(
      (fileName, content) => {
        const dataTransfer = new DataTransfer();
        dataTransfer.items.add(new File([content], fileName));
        for (const type of ['dragenter', 'dragover', 'drop']) {
          document.body.dispatchEvent(new DragEvent(type, { dataTransfer, bubbles: true, cancelable: true }));
        }
      },
      name,
      text,
    );
  }
}
