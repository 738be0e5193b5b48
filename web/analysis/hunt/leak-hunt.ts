/** All holds of a job by what the sensor saw, side by side, and where by them the leak is. */
import type { Mark } from '../../../protocol/mark.ts';
import { type SheetEntry, sheetFromEntries } from '../../../protocol/sheet.ts';
import type { History } from '../readings/history.ts';
import { partSeen, volumeOf } from '../seen/seen-part.ts';
import { lessStub, stubFinding, type StubFinding } from '../seen/stub-baseline.ts';
import { spellsUntil } from '../stages/spell-list.ts';
import { type HuntHold, inflowOf, tooFastOf } from './hunt-hold.ts';
import { type LeakPlace, leakPlace } from './leak-place.ts';
import { LEAST_HOLD_S, ofFastStub, tooFastHolds } from './too-fast-holds.ts';

export interface LeakHunt {
  /** In order of time; what may be a pump that pulls on is none. */
  readonly holds: readonly HuntHold[];
  readonly stub: StubFinding;
  readonly place: LeakPlace;
}

/** So many are looked at: the latest. */
const MOST_HOLDS = 12;

/** @param entries the map of the system among them, as far as there is one */
export function leakHunt(
  history: History,
  marks: readonly Mark[],
  entries: readonly SheetEntry[],
  nowS: number,
): LeakHunt {
  const sheet = sheetFromEntries(entries);
  const { sections } = sheet;
  const spells = spellsUntil(history, marks, sheet, nowS);
  const held = spells.holds.filter(
    ({ fromS, toS, isolationSure }) => isolationSure && toS - fromS >= LEAST_HOLD_S,
  );
  const told = [
    ...held.map((hold) => ({ hold, tooFast: false })),
    ...tooFastHolds(spells, marks, nowS).map((hold) => ({ hold, tooFast: true })),
  ].sort((a, b) => a.hold.fromS - b.hold.fromS);
  const alone = told.slice(-MOST_HOLDS).map(({ hold, tooFast }) => {
    const part = partSeen(marks, entries, hold);
    const seen = { part, volumeM3: volumeOf(part, entries, sections) };
    if (tooFast) return tooFastOf(history, hold, seen);
    return inflowOf(history, hold, seen, sheet, {
      systemM3: volumeOf({ kind: 'system' }, entries, sections),
    });
  });
  const stub =
    alone.findLast(({ part, leakPaPerS, tooFast }) => {
      return part.kind === 'stub' && (tooFast || leakPaPerS !== null);
    }) ?? null;
  const whole = alone.findLast(({ part }) => part.kind === 'system') ?? null;
  const holds = alone.map((hold) => ({
    ...hold,
    lessStub: hold.part.kind === 'stub' ? null : lessStub(hold, stub),
  }));
  const finding = stub?.tooFast ? ofFastStub(stub, whole) : stubFinding(stub, whole);
  return { holds, stub: finding, place: leakPlace(holds, finding) };
}
