/** What becomes of a prepared sheet, said where facts are written: two people may ask at once. Pure. */
import { MOST_UNUSED, type PreparedSheet } from '../../protocol/prepared-sheet.ts';
import type { Declined } from './writer-messages.ts';

/** @returns why nothing more becomes of it; null: it still waits for its job */
export function whyNotWaiting(sheets: readonly PreparedSheet[], prepared: number): Declined | null {
  const sheet = sheets.find((one) => one.prepared === prepared);
  if (sheet === undefined) return declined('not_found', `prepared sheet ${prepared}`);
  if (sheet.usedIn === null) return null;
  return declined('sheet_used', `prepared sheet ${prepared}, recording ${sheet.usedIn}`);
}

/**
 * @param lastNumber the highest that one has, or had before it was discarded
 * @returns why it is not kept; null: it is
 */
export function whyNotKept(
  sheets: readonly PreparedSheet[],
  prepared: number,
  lastNumber: number,
): Declined | null {
  if (prepared <= lastNumber) return whyNotWaiting(sheets, prepared);
  const unused = sheets.filter(({ usedIn }) => usedIn === null).length;
  if (unused < MOST_UNUSED) return null;
  return declined('too_many_prepared', `${unused} wait for their job`);
}

function declined(code: Declined['code'], detail: string): Declined {
  return { type: 'declined', code, detail };
}
