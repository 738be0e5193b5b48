/** What is told of planned evacuations at the edges: nothing pumped, several holds, a metal that was measured early or late. */
import type { Mark, MarkKind } from '../../../../protocol/mark.ts';
import type { Sheet, SheetEntry } from '../../../../protocol/sheet.ts';
import { triplePlanOf } from '../../../../protocol/triple-plan.ts';
import { tripleTold } from '../../../../web/analysis/cycles/triple-told.ts';
import { History } from '../../../../web/analysis/readings/history.ts';
import { describe, expect, test } from 'vitest';

const plan = triplePlanOf('au-nz-triple');
if (plan === null) throw new Error('that rule has evacuations before the last');

type Marked = readonly [MarkKind, number];

/** A reading each second; the second evacuation gives off a third of what the first did. */
function told(marked: readonly Marked[], entries: readonly SheetEntry[], nowS: number) {
  const marks = marked.map(([kind, elapsedS], at): Mark => {
    return { id: at + 1, kind, elapsedS, text: '', madeBy: 'hand' };
  });
  const history = new History();
  let breaks = 0;
  let pressurePa = 100_000;
  let since: Marked = ['note', 0];
  for (let elapsedS = 0; elapsedS <= nowS; elapsedS += 1) {
    const mark = marked.find(([, atS]) => atS === elapsedS);
    if (mark) since = mark;
    if (mark?.[0] === 'nitrogen_break') breaks += 1;
    const [kind, sinceS] = since;
    if (kind === 'pump_on' || kind === 'reopened') pressurePa = 30 + (pressurePa - 30) * 0.97;
    if (kind === 'isolated') {
      pressurePa += (60 / (1 + 2 * breaks) / 150) * Math.exp(-(elapsedS - sinceS) / 150);
    }
    if (kind === 'nitrogen_break') pressurePa = 100_000;
    history.insert({ elapsedS, pressurePa, condition: 'ok', temperatureC: null });
  }
  return tripleTold(history, marks, entries, nowS);
}
const entry = (elapsedS: number, fields: Partial<Sheet>): SheetEntry => ({ elapsedS, fields });
const PLANNED = [entry(0, { triplePlan: plan })];

test('of what was not pumped yet nothing is known, not that all the air is left', () => {
  const { cycles, airLeft, next, waterG, isFlooded } = told([], PLANNED, 60);
  expect(cycles).toEqual([]);
  expect(airLeft).toBeNull();
  expect(waterG).toBeNull();
  expect(isFlooded).toBe(false);
  expect(next).toMatchObject({ kind: 'pull_down', number: 1, of: 3 });
});

describe('a hold that is asked for', () => {
  const held = { ...plan, cycles: [{ targetPa: 200, holdS: 300 }, ...plan.cycles.slice(1)] };
  const entries = [entry(0, { triplePlan: held })];
  const marks = (firstS: number, secondS: number): Marked[] => [
    ['pump_on', 5],
    ['isolated', 500],
    ['reopened', 500 + firstS],
    ['isolated', 1000],
    ['reopened', 1000 + secondS],
  ];
  const hasHeld = (firstS: number, secondS: number) =>
    told(marks(firstS, secondS), entries, 1400).cycles[0]?.hasHeld;

  test('was held where one of them was as long, whichever', () => {
    expect(hasHeld(310, 100)).toBe(true);
    expect(hasHeld(100, 310)).toBe(true);
    // Two of them are not one that long.
    expect(hasHeld(200, 200)).toBe(false);
  });
});

describe('the metal as it was entered', () => {
  const marks: Marked[] = [
    ['pump_on', 5],
    ['isolated', 1000],
    ['nitrogen_break', 1420],
    ['pump_on', 1540],
    ['isolated', 2540],
  ];
  const trend = (...entered: readonly (readonly [atS: number, temperatureC: number])[]) =>
    told(
      marks,
      entered.map(([atS, metalTemperatureC]) => entry(atS, { metalTemperatureC })),
      2960,
    ).trend;
  const UNKNOWN = { kind: 'unlike', why: ['temperature_unknown'] };

  test('counts from ten minutes before a hold to its end, and for no other', () => {
    expect(trend([410, 20], [1950, 20]).kind).not.toBe('unlike');
    expect(trend([1000, 20], [2540, 20]).kind).not.toBe('unlike');
    expect(trend([1410, 20], [2950, 20]).kind).not.toBe('unlike');
    expect(trend([390, 20], [1950, 20])).toMatchObject(UNKNOWN);
    expect(trend([410, 20], [1930, 20])).toMatchObject(UNKNOWN);
    expect(trend([1430, 20], [1950, 20])).toMatchObject(UNKNOWN);
  });

  test('of another day’s warmth compares nothing', () => {
    expect(trend([1000, 20], [2540, 28])).toMatchObject({ kind: 'unlike', why: ['temperature'] });
  });
});
