import { test as base, type ConsoleMessage, expect } from '@playwright/test';

/** What the test set-up itself says, and no page can prevent. */
const SETUP_NOTES = [
  // The software driver notes that a picture was read back, as every screenshot does.
  /GL Driver Message .* GPU stall due to ReadPixels/,
  // Playwright's answer where a test does not allow service workers.
  /Service Worker registration blocked by Playwright/,
];

interface QuietPage {
  /** Console messages that a test provokes on purpose; every other warning or error fails it. */
  readonly expectedMessages: readonly RegExp[];
  readonly quietPage: undefined;
}

/**
 * Playwright's `test` with a page that must stay quiet: a console warning or error, an uncaught error or a request
 * to any other host fails the test.
 */
export const test = base.extend<QuietPage>({
  expectedMessages: [[], { option: true }],
  quietPage: [
    async ({ context, baseURL, expectedMessages }, use) => {
      const heard: string[] = [];
      const allowed = [...SETUP_NOTES, ...expectedMessages];
      const hear = (text: string) => {
        if (!allowed.some((pattern) => pattern.test(text))) heard.push(text);
      };
      context.on('console', (message: ConsoleMessage) => {
        if (!['warning', 'error', 'assert'].includes(message.type())) return;
        hear(`${message.type()}: ${message.text()} (${message.location().url})`);
      });
      context.on('weberror', (webError) => hear(`uncaught: ${webError.error().message}`));
      context.on('request', (request) => {
        const url = request.url();
        if (!url.startsWith(`${baseURL}/`) && !/^(blob|data):/.test(url)) hear(`request to another host: ${url}`);
      });
      await use(undefined);
      expect(heard, 'console warnings and errors, uncaught errors, requests to other hosts').toEqual([]);
    },
    { auto: true },
  ],
});

export { expect };
