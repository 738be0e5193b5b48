/** A part's inflow by the limit of a part so large, and whose leak it is where several were held. */
import type { Mark, MarkKind } from '../../../../protocol/mark.ts';
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import type { ToldHold } from '../../../../web/analysis/conclusions.ts';
import { inflowOf } from '../../../../web/analysis/hunt/hunt-hold.ts';
import { leakHunt } from '../../../../web/analysis/hunt/leak-hunt.ts';
import { leakPlace } from '../../../../web/analysis/hunt/leak-place.ts';
import { History } from '../../../../web/analysis/readings/history.ts';
import { normal, seeded } from '../../../support/invented-curves.ts';
import { once } from '../../../support/once.ts';
import { describe, expect, test } from 'vitest';

const SYSTEM_M3 = 4e-3;
const HOLD: ToldHold = {
  ...{ fromS: 300, toS: 900, recognisedBy: 'mark', isolationSure: true },
  ...{ pumpedS: 300, repeats: false },
};

/** Held from 300 s on, straight up by three times what a whole system may let in. */
const seen = once(() => {
  const random = seeded(4);
  const history = new History();
  for (let elapsedS = 0; elapsedS <= 900; elapsedS += 1) {
    const risenPa = 3 * DEFAULT_SHEET.leakLimitPaPerS * Math.max(elapsedS - 300, 0);
    const pressurePa = (40 + risenPa) * (1 + 0.001 * normal(random));
    history.insert({ elapsedS, pressurePa, condition: 'ok', temperatureC: 20 });
  }
  return history;
});
const inflow = (volumeM3: number | null, systemM3: number | null) =>
  inflowOf(seen(), HOLD, { part: { kind: 'section', name: 'Coil' }, volumeM3 }, DEFAULT_SHEET, {
    systemM3,
  });

describe('what counts as a leak of a part', () => {
  test('is what would count of the whole: the same flow makes a smaller part rise faster', () => {
    // All of it, half and an eighth of it: limits of 1, 2 and 8 times a system's; it rises by 3 of them.
    expect(inflow(SYSTEM_M3, SYSTEM_M3).verdict).toBe('leaks');
    expect(inflow(SYSTEM_M3 / 2, SYSTEM_M3).verdict).toBe('leaks');
    expect(inflow(SYSTEM_M3 / 8, SYSTEM_M3).verdict).toBe('no_leak');
    expect(inflow(SYSTEM_M3 / 8, SYSTEM_M3).leakChance).toBeLessThan(0.05);
  });

  test('is what counts of the whole where either volume is unknown', () => {
    const { leakChance, verdict } = inflow(SYSTEM_M3, SYSTEM_M3);
    for (const [volumeM3, systemM3] of [
      [null, SYSTEM_M3],
      [SYSTEM_M3 / 8, null],
      [null, null],
    ] as const) {
      expect(inflow(volumeM3, systemM3)).toMatchObject({ leakChance, verdict });
    }
  });

  test('is said with its flow where the part’s volume is known, whatever the system’s', () => {
    const { leakPaPerS, leakRatePaM3PerS } = inflow(SYSTEM_M3 / 8, null);
    expect((leakPaPerS?.estimate ?? 0) / (3 * DEFAULT_SHEET.leakLimitPaPerS)).toBeCloseTo(1, 1);
    expect(
      (leakRatePaM3PerS?.estimate ?? 0) / ((leakPaPerS?.estimate ?? 1) * (SYSTEM_M3 / 8)),
    ).toBeCloseTo(1, 1);
    expect(inflow(null, SYSTEM_M3).leakRatePaM3PerS).toBeNull();
  });

  test('is drawn from the valve on, up to the last reading', () => {
    const { curve } = inflow(null, null);
    expect(curve[0]?.heldS).toBeGreaterThanOrEqual(3);
    expect(curve[0]?.heldS).toBeLessThan(20);
    expect(curve.at(-1)?.heldS).toBe(600);
    expect(curve.length).toBeLessThanOrEqual(41);
  });
});

describe('whose leak it is', () => {
  const section = (name: string, leakChance: number | null) => {
    return { part: { kind: 'section' as const, name }, leakChance };
  };
  const place = (...chances: readonly number[]) =>
    leakPlace(
      chances.map((chance, at) => section(`${at + 1}`, chance)),
      'excluded',
    );

  test('is said of none of them unless it is twice as likely as each of the others', () => {
    expect(place(0.7, 0.1, 0.1)).toMatchObject({ kind: 'undecided', name: '1' });
    expect(place(0.7, 0.1, 0.6)).toMatchObject({ kind: 'undecided', name: null });
    expect(place(0.7, 0.6, 0.1)).toMatchObject({ kind: 'undecided', name: null });
    expect(place(0.1, 0.1, 0.7)).toMatchObject({ kind: 'undecided', name: '3' });
    // One alone has no other beside it.
    expect(place(0.5)).toEqual({ kind: 'undecided', name: '1', chance: 0.5 });
  });

  test('has the chance that it is one alone, all of them, or none', () => {
    const found = place(0.96, 0.02, 0.01);
    expect(found.kind === 'found' && found.chance).toBeCloseTo(0.96 * 0.98 * 0.99, 12);
    const none = place(0.01, 0.02);
    expect(none.kind === 'none_of_them' && none.chance).toBeCloseTo(0.99 * 0.98, 12);
    const several = place(0.99, 0.98, 0.5);
    // Less that there is none, and less each of them alone.
    const one = 0.99 * 0.02 * 0.5 + 0.01 * 0.98 * 0.5 + 0.01 * 0.02 * 0.5;
    expect(several.kind === 'several' && several.chance).toBeCloseTo(1 - 1e-4 - one, 12);
    expect(several).toMatchObject({ names: ['1', '2'] });
  });

  test('goes by the latest hold of each that told something', () => {
    const of = (...holds: readonly ReturnType<typeof section>[]) => leakPlace(holds, 'excluded');
    expect(of(section('A', 0.99), section('B', 0.01), section('A', 0.01)).kind).toBe(
      'none_of_them',
    );
    expect(of(section('A', 0.99), section('B', 0.01), section('A', null))).toMatchObject({
      ...{ kind: 'found', name: 'A' },
    });
    expect(
      leakPlace([{ part: { kind: 'system' }, leakChance: 0.99 }, section('A', null)], 'excluded'),
    ).toEqual({ kind: 'no_sections' });
  });

  test('may be the sensor’s own joint where all of them rise and nobody has excluded that', () => {
    const both = [section('A', 0.99), section('B', 0.99)];
    expect(leakPlace(both, 'not_tested')).toEqual({ kind: 'sensor_first' });
    expect(leakPlace(both, 'excluded')).toMatchObject({ kind: 'several' });
    expect(leakPlace([...both, section('C', 0.01)], 'not_tested')).toMatchObject({
      ...{ kind: 'several', names: ['A', 'B'] },
    });
    expect(leakPlace([section('A', 0.99)], 'not_tested')).toEqual({ kind: 'sensor_first' });
    expect(leakPlace([section('A', 0.99), section('B', 0.01)], 'not_tested')).toMatchObject({
      ...{ kind: 'found', name: 'A' },
    });
  });
});

test('holds are listed in order of time, those that rose too fast among the others', () => {
  const random = seeded(8);
  const history = new History();
  const fall = (fromPa: number) => (s: number) => 20 + (fromPa - 20) * Math.exp(-s / 60);
  const spells: readonly (readonly [MarkKind, number, (s: number) => number])[] = [
    ['pump_on', 600, fall(20_000)],
    ['isolated', 300, (s) => 20 + 0.001 * s],
    ['reopened', 300, () => 20],
    ['isolated', 300, (s) => 20 + 3 * s],
    ['reopened', 600, fall(920)],
    ['isolated', 300, (s) => 20 + 0.001 * s],
  ];
  const marks: Mark[] = [];
  let nowS = 0;
  for (const [kind, lengthS, pressureAt] of spells) {
    marks.push({ id: marks.length + 1, kind, elapsedS: nowS, text: '', madeBy: 'hand' });
    for (let s = 1; s <= lengthS; s += 1) {
      nowS += 1;
      const pressurePa = pressureAt(s) * (1 + 0.002 * normal(random));
      history.insert({ elapsedS: nowS, pressurePa, condition: 'ok', temperatureC: 20 });
    }
  }
  const { holds } = leakHunt(history, marks, [], nowS);
  expect(holds.map(({ fromS, tooFast }) => [fromS, tooFast])).toEqual([
    [600, false],
    [1200, true],
    [2100, false],
  ]);
});
