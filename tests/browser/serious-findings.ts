import AxeBuilder from '@axe-core/playwright';
import { expect, type Page } from '@playwright/test';

/** Rules that another theme can break; all others look at what is on the page, not at its colours. */
const COLOUR_RULES = ['color-contrast', 'link-in-text-block'];

interface Look {
  /** Parts of the page to look at, where the rest has been looked at before. */
  readonly within?: readonly string[];
  /** `colours` where the same page has been looked at in another theme. */
  readonly at?: 'everything' | 'colours';
}

/** What axe calls serious or critical, each with where it is. */
export async function seriousFindings(
  page: Page,
  { within = [], at = 'everything' }: Look = {},
): Promise<readonly string[]> {
  const axe = new AxeBuilder({ page }).options({ resultTypes: ['violations'] });
  if (at === 'colours') axe.withRules(COLOUR_RULES);
  for (const selector of within) axe.include(selector);
  const { violations } = await axe.analyze();
  return violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .flatMap(({ id, nodes }) => nodes.map(({ target }) => `${id}: ${target.join(' ')}`));
}

/** Both themes, with how much there is to look at when they are taken one after the other. */
export const THEMES = [
  { theme: 'light', at: 'everything' },
  { theme: 'dark', at: 'colours' },
] as const;

/** Has the system ask for a theme, and waits until the page has it. */
export async function takeTheme(page: Page, theme: 'light' | 'dark'): Promise<void> {
  await page.emulateMedia({ colorScheme: theme });
  await expect(page.locator('html')).toHaveAttribute('data-theme', theme);
}

/** By how much the page is wider than the screen [px]: more than 0 scrolls sideways. */
export const sidewaysScroll = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

/** By how much the page is higher than the screen [px]: more than 0 scrolls away from the header and the verdict. */
export const downwardScroll = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollHeight - document.documentElement.clientHeight);
