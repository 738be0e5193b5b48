/** What becomes of a prepared sheet, said where facts are written: two people may ask at once. Pure. */
import { entriesOf, isWithin, jobsIn } from '../../protocol/job.ts';
import type { Mark } from '../../protocol/mark.ts';
import { MOST_UNUSED, type PreparedSheet } from '../../protocol/prepared-sheet.ts';
import { type SheetEntry, sheetSchema } from '../../protocol/sheet.ts';
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

/** What the job does not say by itself: somebody was on site when that was typed. */
export function fieldsTakenOver(
  prepared: SheetEntry['fields'],
  elapsedS: number,
  marks: readonly Mark[],
  entries: readonly SheetEntry[],
): SheetEntry['fields'] {
  const own = jobsIn(marks)
    .filter((job) => isWithin(job, elapsedS))
    .flatMap((job) => entriesOf(job, entries));
  const isSaid = (field: string) => own.some(({ fields }) => field in fields);
  const unsaid = Object.entries(prepared).filter(([field]) => !isSaid(field));
  return sheetSchema.partial().parse(Object.fromEntries(unsaid));
}

function declined(code: Declined['code'], detail: string): Declined {
  return { type: 'declined', code, detail };
}
