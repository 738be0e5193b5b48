/** What the chart shows, and where: ranges, ticks and flags. */
import { describe, expect, test } from 'vitest';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { micronFromPa, paFromMicron } from '../../../protocol/units.ts';
import { pressureTicks, timeTicks } from '../../../web/figure/chart-ticks.ts';
import { placeFlags } from '../../../web/figure/place-flags.ts';
import { pressureRange } from '../../../web/figure/pressure-range.ts';
import { chartTime } from '../../../web/figure/time-range.ts';
import { conclusionsWith, forecastWith, inRise } from './invented-conclusions.ts';

const log = { axis: 'log', originS: 0, fromS: 0, toS: 600 } as const;
const linear = { ...log, axis: 'linear' } as const;

describe('time', () => {
  const pumpOn = { id: 1, kind: 'pump_on', elapsedS: 100, text: '', madeBy: 'hand' } as const;

  test('a pull-down counts from pump on and leaves room for what is to come', () => {
    const time = chartTime(conclusionsWith(), DEFAULT_SHEET, [pumpOn], 560);
    expect(time.axis).toBe('log');
    expect(time.originS).toBe(100);
    expect(time.fromS).toBeLessThanOrEqual(100);
    expect(time.toS).toBeGreaterThan(560);
  });

  test('a forecast without an end does not squeeze the curve', () => {
    const forecast = forecastWith({ remaining: { p10S: 60, p50S: 90_000, p90S: null } });
    const time = chartTime(conclusionsWith({ forecast, nowS: 4000 }), DEFAULT_SHEET, [], 4000);
    expect(4000 / (time.toS - time.fromS)).toBeGreaterThan(0.4);
  });

  test('a rise is linear, from isolation to the end of the hold or beyond', () => {
    const time = chartTime(inRise(), DEFAULT_SHEET, [], 1370);
    expect(time).toMatchObject({ axis: 'linear', originS: 1000, toS: 1900 });
    expect(chartTime(inRise(), DEFAULT_SHEET, [], 3000).toS).toBeGreaterThan(3000);
  });
});

describe('pressure', () => {
  test('a log axis holds the curve and the depth, and begins above zero', () => {
    const range = pressureRange(log, [90_000, null, 81], null, DEFAULT_SHEET, 'micron');
    expect(micronFromPa(range.lowPa)).toBeCloseTo(100, 6);
    expect(micronFromPa(range.highPa)).toBeCloseTo(1e6, 3);
  });

  test('a linear axis begins at zero and shows the limit', () => {
    const range = pressureRange(linear, [40], inRise(), DEFAULT_SHEET, 'micron');
    expect(range.lowPa).toBe(0);
    expect(range.highPa).toBeGreaterThan(DEFAULT_SHEET.endLimitPa);
  });

  test('an early fit that runs off does not flatten the measured curve', () => {
    const wild = { elapsedS: 1900, lowPa: 0, midPa: 1e4, highPa: 1e5 };
    const range = pressureRange(linear, [60], inRise({ curve: [wild] }), DEFAULT_SHEET, 'micron');
    expect(range.highPa).toBeLessThan(300);
  });

  test('ticks are round in the unit that is read', () => {
    const range = { lowPa: paFromMicron(100), highPa: paFromMicron(1e6) };
    const ticks = pressureTicks(range, 'log', 'micron').map((pa) => Math.round(micronFromPa(pa)));
    expect(ticks).toEqual([100, 1000, 10_000, 100_000, 1_000_000]);
    const rise = pressureTicks({ lowPa: 0, highPa: paFromMicron(1200) }, 'linear', 'micron');
    expect(rise.map((pa) => Math.round(micronFromPa(pa)))).toEqual([
      0, 200, 400, 600, 800, 1000, 1200,
    ]);
  });
});

test('time ticks are whole steps from the axis’ own zero', () => {
  expect(timeTicks({ fromS: 90, toS: 700 }, 100, 6)).toEqual([100, 220, 340, 460, 580, 700]);
});

describe('flags', () => {
  test('labels that would lie on one another go to rows of their own', () => {
    const places = placeFlags(
      [
        { x: 0, width: 100 },
        { x: 50, width: 100 },
        { x: 120, width: 100 },
      ],
      500,
      3,
    );
    expect(places.map(({ row }) => row)).toEqual([0, 1, 0]);
  });

  test('near the right edge a label flies to the left', () => {
    expect(placeFlags([{ x: 450, width: 100 }], 500, 2)).toEqual([{ row: 0, left: true }]);
  });

  test('where no row is left, the pole stands alone', () => {
    const wish = { x: 10, width: 100 };
    expect(placeFlags([wish, wish], 500, 1)[1]?.row).toBeNull();
  });
});
