/** The job sheet as it held for a hold, or for a pull-down, that may be long over. */
import type { Mark } from '../../../protocol/mark.ts';
import { type Sheet, type SheetEntry, sheetFromEntries } from '../../../protocol/sheet.ts';
import { seesSystem } from '../verdict/verdict.ts';
import { partSeen, type SeenPart, type Span, volumeOf } from './seen-part.ts';

export interface EnteredFacts {
  readonly marks: readonly Mark[];
  /** In the order in which they came. */
  readonly entries: readonly SheetEntry[];
}

/**
 * The sheet as it holds for a stretch of the job: with what the sensor saw then, and with the volume of that. The
 * sheet of a job says both as they stand at its end, and a volume may have been entered for a part.
 * @param sheet of the sensor: its own place overrules what is entered for all
 */
export function sheetThen(sheet: Sheet, { marks, entries }: EnteredFacts, span: Span): Sheet {
  const entered = sheetFromEntries(entries);
  const isOverruled = sheet.sensorSees !== entered.sensorSees;
  const part = isOverruled
    ? placed(partSeen(marks, entries, span), sheet)
    : partSeen(marks, entries, span);
  const volumeM3 = volumeOf(part, entries, entered.sections);
  const sensorSees = part.kind === 'system' && seesSystem(sheet) ? sheet.sensorSees : part.kind;
  const then = { ...sheet, sensorSees, volumeM3 };
  return isSameView(sheet, then) ? sheet : then;
}

/** Of two sheets that are one but for that. */
export function isSameView(one: Sheet, other: Sheet): boolean {
  return one.sensorSees === other.sensorSees && one.volumeM3 === other.volumeM3;
}

/** What is said so shortly before a hold is said of that: as valves are turned for it. A setting of ours. */
const PREPARED_S = 60;

/**
 * The same for what was pumped: without a volume where the sensor came to see something else meanwhile, as by valves
 * that were turned.
 */
export function sheetWhilePumped(sheet: Sheet, facts: EnteredFacts, { fromS, toS }: Span): Sheet {
  const atFirst = sheetThen(sheet, facts, { fromS, toS });
  const lateS = Math.max(toS - PREPARED_S, fromS);
  const atLast = sheetThen(sheet, facts, { fromS: lateS, toS: lateS });
  return isSameView(atFirst, atLast) ? atFirst : { ...atFirst, volumeM3: null };
}

function placed(seen: SeenPart, { sensorSees }: Sheet): SeenPart {
  if (sensorSees === 'pump_side') return { kind: 'pump_side' };
  return seen.kind === 'pump_side' ? { kind: 'system' } : seen;
}
