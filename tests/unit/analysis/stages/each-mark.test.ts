/** What each kind of mark does to the stages, to a forecast and to a hold. */
import { type Mark, MARK_KINDS, type MarkKind } from '../../../../protocol/mark.ts';
import { DEFAULT_SHEET } from '../../../../protocol/sheet.ts';
import { closedUpSinceS, isChargeReleased } from '../../../../web/analysis/closing/closed-up.ts';
import type { StageName, ToldHold } from '../../../../web/analysis/conclusions.ts';
import { judge } from '../../../../web/analysis/judge.ts';
import { spanOf } from '../../../../web/analysis/rise/hold-fit.ts';
import {
  isChanged,
  isTelling,
  markedHolds,
  repeatedBefore,
} from '../../../../web/analysis/stages/holds.ts';
import { stageBegunBy } from '../../../../web/analysis/stages/mark-effects.ts';
import { historyOf } from '../../../support/invented-curves.ts';
import { once } from '../../../support/once.ts';
import { describe, expect, test } from 'vitest';

const mark = (kind: MarkKind, elapsedS: number): Mark => ({
  ...{ id: elapsedS + 1, kind, elapsedS, text: '', madeBy: 'hand' },
});
const STAGES: readonly StageName[] = [
  ...(['waiting', 'pull_down', 'at_depth', 'rise'] as const),
  ...(['pump_stopped', 'nitrogen_break', 'vented'] as const),
];

describe('a stage', () => {
  const begun = (during: StageName) =>
    Object.fromEntries(
      MARK_KINDS.flatMap((kind) => {
        const name = stageBegunBy(kind, during);
        return name === null ? [] : [[kind, name]];
      }),
    );
  const ALWAYS = { reopened: 'pull_down', isolated: 'rise', nitrogen_break: 'nitrogen_break' };

  test('of pumping ends with the pump, too', () => {
    for (const during of ['pull_down', 'at_depth'] as const) {
      const pumped = { ...ALWAYS, pump_on: 'pull_down', pump_off: 'pump_stopped' };
      expect(begun(during)).toEqual(pumped);
    }
  });

  test('of holding knows no pump, and begins anew where something else leaks or is seen', () => {
    expect(begun('rise')).toEqual({
      ...ALWAYS,
      ...{ joints_tightened: 'rise', sections_shut: 'rise', sections_opened: 'rise' },
      ...{ stub_shut: 'rise', stub_opened: 'rise', part_seen: 'rise' },
    });
  });

  test('of anything else begins with the pump, the valve or the nitrogen', () => {
    for (const during of STAGES.filter(
      (name) => name !== 'pull_down' && name !== 'at_depth' && name !== 'rise',
    ))
      expect(begun(during)).toEqual({ ...ALWAYS, pump_on: 'pull_down' });
  });
});

describe('a forecast', () => {
  const history = once(() =>
    historyOf(
      Array.from({ length: 301 }, (_, elapsedS) => ({
        ...{ elapsedS, condition: 'ok' as const, temperatureC: null },
        pressurePa: 30 + 6e4 * Math.exp(-elapsedS / 60),
      })),
    ),
  );

  test('begins afresh where the rig became another one, and nowhere else', () => {
    const afresh = MARK_KINDS.filter((kind) => {
      const marks = [mark('pump_on', 20), mark(kind, 150)];
      return judge(history(), marks, DEFAULT_SHEET, 300).forecast?.sinceS === 150;
    });
    expect(afresh).toEqual([
      ...['pump_on', 'ballast_opened', 'ballast_closed', 'reopened', 'cores_out', 'oil_changed'],
      ...['battery_changed', 'joints_tightened', 'sections_opened'],
    ]);
  });
});

describe('a hold', () => {
  test('is of another system after these', () => {
    const changed = MARK_KINDS.filter((kind) => isChanged([mark(kind, 150)], 100, 200));
    expect(changed).toEqual([
      ...['nitrogen_break', 'joints_tightened', 'sections_shut', 'sections_opened'],
      ...['stub_shut', 'stub_opened', 'part_seen'],
    ]);
    const at = (elapsedS: number) => isChanged([mark('stub_shut', elapsedS)], 100, 200);
    expect([100, 101, 200, 201].map(at)).toEqual([false, true, true, false]);
  });

  test('as marked goes from the valve after pumping to where it is opened or filled', () => {
    const marks = [
      ...[mark('isolated', 10), mark('pump_on', 20), mark('isolated', 100), mark('isolated', 150)],
      ...[mark('reopened', 300), mark('isolated', 500), mark('note', 550)],
      ...[mark('nitrogen_break', 600), mark('isolated', 800)],
    ];
    expect(markedHolds(marks, 900)).toEqual([
      { fromS: 100, toS: 300 },
      { fromS: 500, toS: 600 },
      { fromS: 800, toS: 900 },
    ]);
    expect(markedHolds(marks.slice(0, 2), 900)).toEqual([]);
    expect(markedHolds([], 900)).toEqual([]);
  });

  test('is reckoned with those that it repeats: two at most, long enough and surely shut off', () => {
    const hold = (fromS: number, more: Partial<ToldHold> = {}): ToldHold => ({
      ...{ fromS, toS: fromS + 300, recognisedBy: 'mark', isolationSure: true },
      ...{ pumpedS: 60, repeats: true },
      ...more,
    });
    const before = (...holds: readonly ToldHold[]) =>
      repeatedBefore(holds).map(({ fromS }) => fromS);
    const first = hold(0, { repeats: false });
    expect(before()).toEqual([]);
    expect(before(first)).toEqual([]);
    expect(before(first, hold(1000))).toEqual([0]);
    expect(before(first, hold(1000), hold(2000), hold(3000))).toEqual([1000, 2000]);
    expect(before(first, hold(1000, { repeats: false }), hold(2000))).toEqual([1000]);
    expect(before(first, hold(1000), hold(2000, { repeats: false }))).toEqual([]);
    expect(before(first, hold(1000, { toS: 1119 }), hold(2000))).toEqual([0]);
    expect(before(hold(1000, { isolationSure: false }), hold(2000))).toEqual([]);
    expect(isTelling(hold(0, { toS: 120 }))).toBe(true);
    expect(spanOf(hold(7))).toEqual({ isolatedS: 7, isMarked: true, isolationSure: true });
    expect(spanOf(hold(7, { recognisedBy: 'curve' })).isMarked).toBe(false);
  });
});

describe('closing up', () => {
  test('is begun by shutting the sensor off or letting the charge in', () => {
    const closing = MARK_KINDS.filter((kind) => closedUpSinceS([mark(kind, 50)]) !== null);
    expect(closing).toEqual(['sensor_isolated', 'charge_released']);
    expect(MARK_KINDS.filter((kind) => isChargeReleased([mark(kind, 50)]))).toEqual([
      'charge_released',
    ]);
  });

  test('is taken back by work on the vacuum', () => {
    const goesOn = MARK_KINDS.filter(
      (kind) => closedUpSinceS([mark('sensor_isolated', 50), mark(kind, 60)]) === null,
    );
    expect(goesOn).toEqual([
      ...['pump_on', 'isolated', 'reopened', 'nitrogen_break', 'cores_out', 'joints_tightened'],
      ...['sections_shut', 'sections_opened', 'stub_shut', 'stub_opened', 'part_seen'],
    ]);
  });

  test('began with the first of its marks since then', () => {
    const marks = [
      ...[mark('sensor_isolated', 10), mark('pump_on', 20)],
      ...[mark('charge_released', 30), mark('sensor_isolated', 40)],
    ];
    expect(closedUpSinceS(marks)).toBe(30);
    expect(isChargeReleased(marks.slice(0, 2))).toBe(false);
  });
});
