/** A step is said once: of what is entered from now on, while what was taken before stays readable. */
import { expect, test } from 'vitest';
import { newPreparedSheetSchema } from '../../../protocol/prepared-sheet.ts';
import {
  newSheetEntrySchema,
  sheetEntrySchema,
  sheetFromEntries,
  type Sheet,
} from '../../../protocol/sheet.ts';

const ticked = (...steps: Sheet['tickedSteps'][number]['step'][]) => ({
  tickedSteps: steps.map((step) => ({ step, state: 'done', atS: 1 })),
});
const twice = ticked('hook_up', 'pump_check', 'hook_up');

test('twice the same step is no new entry, nor a prepared sheet', () => {
  const once = ticked('hook_up', 'pump_check');
  expect(newSheetEntrySchema.parse({ elapsedS: 1, fields: once }).fields).toEqual(once);
  expect(newSheetEntrySchema.safeParse({ elapsedS: 1, fields: twice }).success).toBe(false);
  expect(newPreparedSheetSchema.safeParse({ prepared: null, fields: twice }).success).toBe(false);
});

test('a fact that says it twice is still read', () => {
  const entry = sheetEntrySchema.parse({ elapsedS: 1, fields: twice });
  expect(sheetFromEntries([entry])).toMatchObject(twice);
});
