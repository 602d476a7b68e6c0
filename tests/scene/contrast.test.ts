import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

/** Relative luminance and contrast as WCAG 2.2 defines them (w3.org/TR/WCAG22, "relative luminance", "contrast ratio"). */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(one: string, other: string): number {
  const [low, high] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (high + 0.05) / (low + 0.05);
}

/** Tokens of a theme's block in a style sheet. */
function tokens(path: string, selector: string): Record<string, string> {
  const css = readFileSync(path, 'utf8');
  const start = css.indexOf(`${selector} {`);
  const block = css.slice(start, css.indexOf('}', start));
  return Object.fromEntries([...block.matchAll(/--([\w-]+): (#[0-9a-f]{6})/g)].map(([, name, value]) => [name, value]));
}

const SCENE = 'src/scene/viewport.module.css';
const THEME = 'src/app/theme.css';

describe('the dark drawing', () => {
  const ink = tokens(SCENE, ":root[data-theme='dark'] .viewport");

  it.each(['scene-fill', 'scene-shade'])('has legs and plates, lit and in shade, at least 3:1 lighter: %s', (part) => {
    expect(luminance(ink[part])).toBeGreaterThan(luminance(ink['scene-paper']));
    expect(contrast(ink[part], ink['scene-paper'])).toBeGreaterThanOrEqual(3);
  });

  it('has outlines that show on the parts, and labels that can be read', () => {
    expect(contrast(ink['scene-ink'], ink['scene-fill'])).toBeGreaterThanOrEqual(3);
    expect(contrast(ink['scene-ink'], ink['scene-paper'])).toBeGreaterThanOrEqual(4.5);
  });
});

describe('the light drawing', () => {
  const ink = tokens(SCENE, '.viewport');

  it('has outlines and labels that show on ground and parts', () => {
    for (const ground of ['scene-paper', 'scene-fill', 'scene-shade'])
      expect(contrast(ink['scene-ink'], ink[ground]), ground).toBeGreaterThanOrEqual(4.5);
  });
});

describe.each([
  ['light', ':root'],
  ['dark', ":root[data-theme='dark']"],
])('text in the %s theme', (_, selector) => {
  const theme = tokens(THEME, selector);

  it.each(['ink', 'ink-soft', 'ink-faint', 'accent', 'warn'])('%s is at least 4.5:1 on sheet and paper', (name) => {
    for (const ground of ['sheet', 'paper'])
      expect(contrast(theme[name], theme[ground]), ground).toBeGreaterThanOrEqual(4.5);
  });
});

describe('colours', () => {
  it('come from the theme and from the inks of the drawing, nowhere else', () => {
    const own = readdirSync('src', { recursive: true, encoding: 'utf8' })
      .map((path) => join('src', path))
      .filter((path) => path.endsWith('.css') && path !== THEME && path !== SCENE)
      .filter((path) => /#[0-9a-f]{3,8}\b|\b(rgb|hsl|oklch)a?\(/i.test(readFileSync(path, 'utf8')));
    expect(own).toEqual([]);
  });
});

describe('sizes of text', () => {
  it('are those of the theme, of which only the one for axes is below 13 px', () => {
    const sizes = [...readFileSync(THEME, 'utf8').matchAll(/--(text[\w-]*): ([\d.]+)rem/g)];
    expect(sizes.filter(([, , rem]) => 16 * Number(rem) < 13).map(([, name]) => name)).toEqual(['text-axis']);
    const raw = readdirSync('src', { recursive: true, encoding: 'utf8' })
      .filter((path) => path.endsWith('.css'))
      .filter((path) => /font-size: [\d.]+(px|rem)/.test(readFileSync(join('src', path), 'utf8')));
    expect(raw).toEqual([]);
  });
});
