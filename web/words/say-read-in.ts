/** Reading a file in: what was found in it, and what is wrong with a row. */
import type { Wording } from './english.ts';
import { sayDuration } from './say-duration.ts';
import { sayPressure } from './say-pressure.ts';
import type { Speech } from './speech.ts';

type TimeKindName = keyof Wording['readIn']['timeKinds'];
type FaultName = keyof Wording['readIn']['faults'];

/** A column by its heading, or by its place where it has none. */
export function sayColumn(heading: string | undefined, at: number, { wording }: Speech): string {
  return heading === undefined || heading === ''
    ? wording.readIn.column({ number: String(at + 1) })
    : heading;
}

/** As `Found` has it. */
interface FoundFacts {
  readonly readings: number;
  readonly unmeasured: number;
  readonly events: number;
  readonly faulty: number;
  readonly lengthS: number;
  readonly lowestPa: number | null;
}

/** '1284 readings over 52 min, 66.0 Pa lowest; 12 of them without a pressure; 3 rows could not be read.' */
export function sayFound(found: FoundFacts, speech: Speech): string {
  const words = speech.wording.readIn;
  const { unmeasured, events, faulty, lengthS, lowestPa } = found;
  if (found.readings === 0) return words.nothing;
  const readings = words.readings(counted(found.readings));
  const length = sayDuration(lengthS);
  return `${[
    lowestPa === null
      ? words.found({ readings, length })
      : words.foundLowest({ readings, length, lowest: sayPressure(lowestPa, speech) }),
    ...(unmeasured > 0 ? [words.withoutPressure({ count: String(unmeasured) })] : []),
    ...(events > 0 ? [words.events(counted(events))] : []),
    ...(faulty > 0 ? [words.unreadable(counted(faulty))] : []),
  ].join('; ')}.`;
}

export function sayReadIn(readings: number, { wording }: Speech): string {
  const words = wording.readIn;
  return words.readInCount({ readings: words.readings(counted(readings)) });
}

function counted(count: number): { count: number; digits: string } {
  const gap = count < 10_000 ? '' : '\u00a0';
  return { count, digits: String(count).replace(/\B(?=(\d{3})+$)/gu, gap) };
}

const LONGEST_CELL = 30;

export function sayFaultyRow(
  row: { readonly lineNumber: number; readonly fault: FaultName; readonly cell: string },
  { wording }: Speech,
): string {
  const words = wording.readIn;
  const cell = row.cell.length > LONGEST_CELL ? `${row.cell.slice(0, LONGEST_CELL)}…` : row.cell;
  return words.faultyLine({
    line: String(row.lineNumber),
    fault: words.faults[row.fault]({ cell }),
  });
}

/** Kept with the recording: what was made of the file. */
export function sayHowRead(
  how: {
    readonly time: string;
    readonly timeAs: TimeKindName;
    readonly pressure: string;
    /** The unit of its pressures, as it is called. */
    readonly pressureIn: string;
    readonly faulty: number;
    readonly lines: readonly number[];
  },
  { wording }: Speech,
): string {
  const words = wording.readIn;
  const read = words.howRead({
    time: short(how.time),
    kind: words.timeKinds[how.timeAs],
    pressure: short(how.pressure),
    unit: how.pressureIn,
  });
  if (how.faulty === 0) return read;
  const left = { count: how.faulty, lines: how.lines.join(', ') };
  const others = how.faulty > how.lines.length;
  return `${read} ${others ? words.leftOutAndOthers(left) : words.leftOut(left)}`;
}

function short(heading: string): string {
  return heading.slice(0, LONGEST_CELL);
}
