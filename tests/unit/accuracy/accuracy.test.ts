/** The accuracy table measures what it says: by cases whose answer is known. */
import { describe, expect, test } from 'vitest';
import type { ForecastLine, MomentLine } from '../../bench/accuracy/lines.ts';
import { forecastSections, momentSection } from '../../bench/accuracy/forecast-rows.ts';
import { readOptions } from '../../bench/accuracy/options.ts';
import { isRight } from '../../bench/accuracy/right-verdict.ts';
import { lastMinuteS, logTimeS } from '../../bench/accuracy/rivals.ts';
import { SECOND_WORLD } from '../../bench/accuracy/second-world-trials.ts';
import { atLeast, atMost, printSection, quantile, share } from '../../bench/accuracy/table.ts';
import { SHARES, tellPullDown } from '../../bench/accuracy/tell-pull-down.ts';
import { MINUTES, tellRise } from '../../bench/accuracy/tell-rise.ts';
import type { HistoryPoint } from '../../../web/analysis/readings/history.ts';

function points(pressureAt: (elapsedS: number) => number): HistoryPoint[] {
  return Array.from({ length: 601 }, (_, elapsedS) => ({
    elapsedS,
    pressurePa: pressureAt(elapsedS),
    condition: 'ok',
    temperatureC: null,
  }));
}

describe('rivals', () => {
  test('the last minute foretells an exponential', () => {
    const falling = points((elapsedS) => 1e5 * Math.exp(-elapsedS / 100));
    // 10⁵ · e^(−t/100) = 50 at t = 100 · ln 2000.
    expect(lastMinuteS(falling, 600, 50)).toBeCloseTo(100 * Math.log(2000) - 600, 6);
  });

  test('log time foretells a power of time since pump on', () => {
    const falling = points((elapsedS) => 3e5 / Math.max(elapsedS - 20, 1));
    // 3·10⁵ / t = 100 at t = 3000, of which 580 s are over.
    expect(logTimeS(falling, 20, 600, 100)).toBeCloseTo(3000 - 580, 4);
  });

  test('neither foretells anything of a rise', () => {
    const rising = points((elapsedS) => 100 + elapsedS);
    expect(lastMinuteS(rising, 600, 50)).toBeNull();
    expect(logTimeS(rising, 0, 600, 50)).toBeNull();
  });
});

describe('the table', () => {
  test('counts shares and takes quantiles', () => {
    expect(share([1, 2, 3, 4], (one) => one > 1).achieved).toBe(75);
    expect(share([], () => true).achieved).toBeNull();
    expect(quantile([4, 1, 3, 2], 0.5).achieved).toBe(2.5);
    expect(quantile([1, Infinity], 0.5).achieved).toBe(Infinity);
    expect(quantile([], 0.5).achieved).toBeNull();
  });

  test('says what falls short, and never passes what was not measured', () => {
    const cells = [
      share([1, 2], (one) => one > 1, atMost(50)),
      share([1, 2], (one) => one > 1, atLeast(51)),
      share([], () => true, atLeast(0)),
    ];
    const [, , row] = printSection({
      title: '',
      columns: [],
      rows: [{ name: 'n', unit: '%', cells }],
    });
    expect(row?.match(/ok|SHORT/gu)).toEqual(['ok', 'SHORT', 'SHORT']);
  });

  test('counts what is not told as wrong by all of it', () => {
    const [all] = forecastSections([
      line({ p10S: 80, p50S: 110, p90S: 200 }),
      line({ p10S: 101, p50S: 120, p90S: null }),
      line({ p10S: null, p50S: null, p90S: null }),
    ]);
    const figure = (name: string) =>
      all?.rows.find((row) => row.name.startsWith(name))?.cells[0]?.achieved;
    expect(figure('no remaining time')).toBeCloseTo(100 / 3);
    expect(figure('median error of p50, told')).toBeCloseTo(15);
    expect(figure('median error of p50, untold')).toBeCloseTo(20);
    expect(figure('[p10, p90]')).toBe(50);
    expect(figure('  it comes before p10')).toBe(50);
    expect(figure('median width')).toBe(Infinity);
  });
});

test('of any moment it is counted on which side of what was foretold the target came, by the reason', () => {
  const at = (cause: string, said: Pick<MomentLine, 'p10S' | 'p50S' | 'p90S'>, wet = false) => ({
    ...({ what: 'moment', world: 'second', seed: 1, elapsedS: 50, trueS: 100 } as const),
    ...{ wet, cause, ...said },
  });
  const { columns, rows } = momentSection([
    at('boil_off', { p10S: 101, p50S: 120, p90S: null }, true),
    at('boil_off', { p10S: 10, p50S: 90, p90S: 200 }, true),
    at('floor', { p10S: 10, p50S: 50, p90S: 99 }),
    at('sensor', { p10S: null, p50S: null, p90S: null }),
  ]);
  const figures = (name: string) => {
    const cells = rows.find((row) => row.name.startsWith(name))?.cells ?? [];
    return cells.map(({ achieved }) => (achieved === null ? null : Math.round(achieved)));
  };
  expect(columns).toEqual(['all', 'dry', 'wet', 'plateau', 'flat', 'beyond the range']);
  expect(figures('no remaining time')).toEqual([25, 50, 0, 0, 0, 100]);
  expect(figures('it comes later than p50')).toEqual([67, 100, 50, 50, 100, null]);
  expect(figures('it comes before p10')).toEqual([33, 0, 50, 50, 0, null]);
  expect(figures('it comes after p90')).toEqual([33, 100, 0, 0, 100, null]);
});

function line(said: Pick<ForecastLine, 'p10S' | 'p50S' | 'p90S'>): ForecastLine {
  return {
    what: 'forecast',
    world: 'second',
    seed: 1,
    wet: false,
    share: 0.3,
    nowS: 50,
    elapsedS: 50,
    trueS: 100,
    outcome: 'reaches',
    floorPa: null,
    cause: null,
    lastMinuteS: null,
    logTimeS: null,
    ...said,
  };
}

describe('right verdicts', () => {
  /** 10 micron/min, above the limit of 5, in Pa/s; and 2. */
  const LEAK = 0.0222;
  const SMALL = 0.0044;

  test.each([
    ['tight_dry', SMALL, 'tight_dry', true],
    ['tight_dry', SMALL, 'moisture', false],
    ['moisture', SMALL, 'moisture', true],
    ['moisture', SMALL, 'leak_and_moisture', false],
    ['moisture', LEAK, 'leak_and_moisture', true],
    ['leak', LEAK, 'leak', true],
    ['leak', LEAK, 'leak_and_moisture', false],
    ['leak', LEAK, 'tight_dry', false],
    ['leak_and_moisture', LEAK, 'moisture', false],
    ['borderline', LEAK, 'leak', true],
    ['borderline', LEAK, 'tight_dry', false],
    ['borderline', SMALL, 'tight_dry', true],
  ] as const)('%s of %d Pa/s, said %s: %s', (kind, leakPaPerS, verdict, right) => {
    expect(isRight(kind, leakPaPerS, verdict, 'to_the_word')).toBe(right);
  });

  test('to name the leak is enough where one is asked for no more', () => {
    expect(isRight('leak', LEAK, 'leak_and_moisture', 'leak_named')).toBe(true);
    expect(isRight('leak_and_moisture', LEAK, 'leak', 'leak_named')).toBe(true);
    expect(isRight('leak_and_moisture', LEAK, 'moisture', 'leak_named')).toBe(false);
  });
});

describe('cuts', () => {
  test('of a pull-down lie near the shares, and what remains is what remains', () => {
    for (let seed = 1; seed <= 6; seed += 1) {
      const trial = SECOND_WORLD.pullDown(seed);
      if (trial.reachedS === null) continue;
      const took = trial.reachedS - trial.pumpOnS;
      const lines = tellPullDown(trial, false).filter((one) => one.what === 'forecast');
      expect(lines.map((one) => one.share)).toEqual([...SHARES]);
      for (const { share: nominal, elapsedS, nowS, trueS } of lines) {
        // Judging waits for the second to be over.
        expect(elapsedS).toBeGreaterThan(took * (nominal - 0.05));
        expect(elapsedS).toBeLessThan(took * (nominal + 0.05) + 1);
        expect(nowS + trueS).toBeCloseTo(trial.reachedS, 6);
      }
    }
  });

  test('at any moment lie one in each tenth of the time', () => {
    const trial = SECOND_WORLD.pullDown(6);
    if (trial.reachedS === null) throw new Error('it reaches its target');
    const { pumpOnS, reachedS } = trial;
    const took = reachedS - pumpOnS;
    const lines = tellPullDown(trial, false).filter((one) => one.what === 'moment');
    expect(lines).toHaveLength(10);
    for (const [part, { elapsedS, trueS }] of lines.entries()) {
      // Judging waits for the second to be over.
      expect(elapsedS).toBeGreaterThanOrEqual((took * part) / 10);
      expect(elapsedS).toBeLessThan((took * (part + 1)) / 10 + 1);
      expect(elapsedS + trueS).toBeCloseTo(took, 6);
    }
  });

  test('of a rise lie near the minutes', () => {
    const lines = tellRise(SECOND_WORLD.rise(2), false).filter((one) => one.what === 'rise');
    expect(lines.map(({ minute }) => minute)).toEqual([...MINUTES]);
    for (const { minute, heldS } of lines) {
      expect(Math.abs(heldS / 60 / minute - 1)).toBeLessThanOrEqual(0.1);
    }
  });
});

test('training seeds end before those that are held out', () => {
  const training = readOptions(['--set', 'training', '--rises', '99999']);
  const heldOut = readOptions(['--set', 'held-out', '--full']);
  if (!training || !heldOut) throw new Error('neither asks for help');
  expect(training.firstSeed + training.rises - 1).toBeLessThan(heldOut.firstSeed);
  expect(heldOut.pullDowns).toBeGreaterThanOrEqual(500);
  expect(heldOut.rises).toBeGreaterThanOrEqual(1000);
  expect(() => readOptions(['--set', 'training', '--rises', '100000'])).toThrow();
});
