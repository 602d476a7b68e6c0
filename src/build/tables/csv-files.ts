import { ok } from '../../math/result.ts';
import { type Exporter, textFile } from '../exporter.ts';
import { fileStem } from '../file-name.ts';
import { tableCsv } from './csv.ts';
import { tablesOf } from './tables.ts';

export const csv: Exporter = {
  words: 'Tables',
  says: 'CSV: holes, joint centres, bracket angles in words, legs, parts list and leg lengths to set.',
  purpose: 'set',
  ending: 'csv',
  write: async (parts, sides) =>
    ok(
      tablesOf(parts, sides).map((table) => textFile(`${fileStem(parts.name)}-${table.id}.csv`, null, tableCsv(table))),
    ),
};
