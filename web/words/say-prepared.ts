/** A prepared job sheet in a list: site and equipment, or its number. */
import type { PreparedSheet } from '../../protocol/prepared-sheet.ts';
import type { Speech } from './speech.ts';

export function sayPrepared({ prepared, fields }: PreparedSheet, { wording }: Speech): string {
  const entered = [fields.site, fields.equipment].filter(
    (text) => text !== undefined && text !== '',
  );
  if (entered.length > 0) return entered.join(', ');
  return wording.prepared.numbered({ number: String(prepared) });
}
