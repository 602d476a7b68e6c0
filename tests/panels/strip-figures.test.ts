import { describe, expect, it } from 'vitest';
import { withFiner } from '../../src/panels/helps/strip-figures.ts';

describe('the volumes of the table of what helps', () => {
  const report = { reach: 720e3, usable: 600e3, toolError: 0.1, helps: [] };

  it('are those of the strip where it has them', () => {
    expect(withFiner(report, { reach: 721e3, usable: null })).toEqual({ ...report, reach: 721e3 });
    expect(withFiner(report, { reach: 721e3, usable: 601e3 })).toMatchObject({ reach: 721e3, usable: 601e3 });
  });

  it('stay unknown where they were not asked for', () => {
    expect(withFiner({ ...report, usable: null }, { reach: null, usable: 601e3 })).toEqual({ ...report, usable: null });
  });
});
