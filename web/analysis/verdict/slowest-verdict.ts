/** One verdict by several sensors on one system: a pass waits for the slowest of them. */
import type { Sheet } from '../../../protocol/sheet.ts';
import type { Verdict } from '../../../protocol/verdicts.ts';
import type { Rise } from '../conclusions.ts';
import { seesSystem } from './verdict.ts';

interface SensorSaid {
  readonly channel: number;
  /** Null: no hold is judged there. */
  readonly verdict: Verdict | null;
  /** How much longer it will take it to say one, where that is known. */
  readonly moreS: number | null;
  /** A sensor at the pump says nothing of the system. */
  readonly seesSystem: boolean;
}

export interface SlowestVerdict {
  readonly verdict: Verdict;
  /** Those that have not decided. */
  readonly waiting: readonly number[];
  /** Those that have found a leak or moisture. */
  readonly finding: readonly number[];
  /** Until the slowest of them has; null where none is awaited, or nobody knows. */
  readonly moreS: number | null;
}

/** @param rise null: no hold is judged there */
export function sensorSaid(channel: number, rise: Rise | null, sheet: Sheet): SensorSaid {
  const verdict = rise?.verdict ?? null;
  return { channel, verdict, moreS: rise?.moreS ?? null, seesSystem: seesSystem(sheet) };
}

/** Null where no sensor sees the system. */
export function slowestVerdict(sensors: readonly SensorSaid[]): SlowestVerdict | null {
  const asked = sensors.filter(({ seesSystem }) => seesSystem);
  if (asked.length === 0) return null;
  const open = asked.filter(({ verdict }) => verdict === null || verdict === 'undecided');
  const said = new Set(asked.map(({ verdict }) => verdict));
  const waits = open.map(({ moreS }) => moreS);
  return {
    verdict: together(said, open.length > 0),
    waiting: open.map(({ channel }) => channel),
    finding: asked.filter(hasFound).map(({ channel }) => channel),
    moreS: waits.reduce<number | null>(
      (most, moreS) => (most === null || moreS === null ? null : Math.max(most, moreS)),
      open.length === 0 ? null : 0,
    ),
  };
}

/**
 * What one of them has concluded, with the others heard: its pass is none while another one does not bear it out.
 * What another one has found is not taken over: its figures are of its own curve.
 */
export function heardTogether(rise: Rise, together: SlowestVerdict | null): Rise {
  if (rise.verdict !== 'tight_dry' || together === null || together.verdict === 'tight_dry') {
    return rise;
  }
  return {
    ...rise,
    verdict: 'undecided',
    reservations: [...rise.reservations, 'other_sensor'],
    moreS: together.finding.length > 0 ? null : together.moreS,
  };
}

function hasFound({ verdict }: SensorSaid): boolean {
  return verdict !== null && verdict !== 'undecided' && verdict !== 'tight_dry';
}

/** What one of them has found wrong is wrong, however long the others take. */
function together(said: ReadonlySet<Verdict | null>, isOpen: boolean): Verdict {
  const leaks = said.has('leak') || said.has('leak_and_moisture');
  const isMoist = said.has('moisture') || said.has('leak_and_moisture');
  if (leaks) return isMoist ? 'leak_and_moisture' : 'leak';
  if (isMoist) return 'moisture';
  return isOpen ? 'undecided' : 'tight_dry';
}
