import { describe, expect, it } from 'vitest';
import { firmnessShare, SCALE_END } from '../../src/scene/colour/firmness-scale.ts';
import { MAPS, mapOf } from '../../src/scene/colour/maps.ts';
import { colourTable, TABLE_SIZE } from '../../src/state/colour/colour-table.ts';
import { magnitudeColour } from '../../src/state/colour/magnitude-colours.ts';
import { QUANTITIES, QUANTITY_NAMES } from '../../src/terms/quantities.ts';

/** Lightness L* of an sRGB colour: IEC 61966-2-1 for the linear values, CIE 1976 for L*. Written here on its own. */
function lightness(red: number, green: number, blue: number): number {
  const linear = (value: number) => (value <= 10.31475 ? value / 3294.6 : ((value / 255 + 0.055) / 1.055) ** 2.4);
  const y = 0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue);
  return y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : (24389 / 27) * y;
}

describe('cividis', () => {
  const table = colourTable(MAPS.less);
  const light = Array.from({ length: TABLE_SIZE }, (_, i) =>
    lightness(table[4 * i], table[4 * i + 1], table[4 * i + 2]),
  );

  it('runs from the published dark blue to the published yellow', () => {
    // Nunez, Anderton, Renslow 2018, ends of the map: about (0, 34, 78) and (254, 232, 56); from memory, hence the room
    const end = 4 * (TABLE_SIZE - 1);
    [0, 34, 78].forEach((value, k) => expect(Math.abs(table[k] - value)).toBeLessThan(12));
    [254, 232, 56].forEach((value, k) => expect(Math.abs(table[end + k] - value)).toBeLessThan(14));
  });

  it('gets lighter all the way, at nearly the same pace', () => {
    const steps = Array.from({ length: 16 }, (_, i) => light[15 * (i + 1)] - light[15 * i]);
    const mean = steps.reduce((sum, step) => sum + step, 0) / steps.length;
    for (const step of steps) {
      expect(step).toBeGreaterThan(0.7 * mean);
      expect(step).toBeLessThan(1.3 * mean);
    }
  });

  it('holds shares outside 0 to 1 at the ends', () => {
    expect(magnitudeColour(-1, 'less')).toBe(magnitudeColour(0, 'less'));
    expect(magnitudeColour(2, 'less')).toBe(magnitudeColour(1, 'less'));
  });
});

describe('the sense of the colours', () => {
  const channels = (colour: string) => (colour.match(/\d+/g) ?? []).map(Number);
  const lightAt = (share: number, better: 'more' | 'less') => {
    const [red, green, blue] = channels(magnitudeColour(share, better));
    return lightness(red, green, blue);
  };

  it('is yellow for the worse end and dark blue for the better one, whichever way numbers run', () => {
    // firmness is one over magnification: the same layout is low on the one scale and high on the other
    expect(magnitudeColour(0, 'more')).toBe(magnitudeColour(1, 'less'));
    expect(magnitudeColour(1, 'more')).toBe(magnitudeColour(0, 'less'));
    expect(lightAt(0, 'more')).toBeGreaterThan(lightAt(1, 'more') + 50);
    expect(lightAt(1, 'less')).toBeGreaterThan(lightAt(0, 'less') + 50);
  });

  it('follows what is better of each quantity of the field; magnification is one of which less is better', () => {
    expect(mapOf(null)).toBe('less');
    for (const quantity of QUANTITY_NAMES) {
      expect(mapOf({ kind: 'linear', quantity })).toBe(QUANTITIES[quantity].better);
      expect(mapOf({ kind: 'signed', quantity })).toBe('signed');
    }
  });
});

describe('the firmness scale', () => {
  it('gives equal steps to equal factors', () => {
    expect(firmnessShare(1)).toBe(0);
    expect(firmnessShare(SCALE_END)).toBe(1);
    expect(firmnessShare(8) - firmnessShare(4)).toBeCloseTo(firmnessShare(4) - firmnessShare(2), 12);
    expect(firmnessShare(Math.sqrt(SCALE_END))).toBeCloseTo(0.5, 12);
  });

  it('puts whatever is looser, and singular poses, at the end', () => {
    expect(firmnessShare(1000)).toBe(1);
    expect(firmnessShare(Number.POSITIVE_INFINITY)).toBe(1);
    expect(firmnessShare(0.5)).toBe(0);
  });
});
