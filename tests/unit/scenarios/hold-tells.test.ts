/** What makes each scenario the one it is, where water, gas or a leak shows; and what cures it. */
import { describe, expect, it } from 'vitest';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { micronFromPa } from '../../../protocol/units.ts';
import { iceVapourPressurePa } from '../../../protocol/water.ts';
import { played, playedInOrder } from '../../support/played-scenario.ts';

const LIMIT_PER_MINUTE = micronFromPa(DEFAULT_SHEET.leakLimitPaPerS * 60);

describe('ice', () => {
  const NAME = 'tollgate-cottage';
  const ICE_MICRON = micronFromPa(iceVapourPressurePa(268.15));

  it('makes it stand still for long, well below the triple point', () => {
    const { around, isolatedS } = played(NAME);
    const levels = [10, 15, 20, 25, 30, 35].map((minute) => around(minute * 60));
    expect(Math.max(...levels)).toBeLessThan(1.1 * Math.min(...levels));
    expect(Math.max(...levels)).toBeLessThan(0.5 * 4588);
    expect(Math.min(...levels)).toBeGreaterThan(500);
    expect(around(isolatedS - 20)).toBeGreaterThan(500);
  });

  it('lets it rise towards the vapour pressure of ice at −5 °C, and no further', () => {
    const { held, truth } = played(NAME);
    expect(truth.leakPaPerS).toBe(0);
    expect(held(900)).toBeGreaterThan(0.8 * ICE_MICRON);
    expect(held(900)).toBeLessThan(ICE_MICRON);
    expect(held(900) - held(600)).toBeLessThan(0.5 * (held(315) - held(15)));
  });

  it('leaves a system as any other where there is none', () => {
    expect(playedInOrder(NAME).timeTo(250)).toBeLessThan(15 * 60);
  });
});

describe('a leak that barely counts', () => {
  const NAME = 'harbour-lane-bookshop';

  it('passes by the end of its hold, and shows in its slope', () => {
    const { held, slope, truth } = played(NAME);
    expect(micronFromPa(truth.leakPaPerS * 60)).toBeGreaterThan(LIMIT_PER_MINUTE);
    expect(micronFromPa(truth.leakPaPerS * 60)).toBeLessThan(2 * LIMIT_PER_MINUTE);
    expect(held(900, 0)).toBeLessThan(500);
    expect(slope(0)).toBeGreaterThan(LIMIT_PER_MINUTE);
  });

  it('is gone once the joints have been tightened', () => {
    expect(Math.abs(played(NAME).slope(1))).toBeLessThan(0.2 * LIMIT_PER_MINUTE);
  });
});

describe('the charged side', () => {
  const NAME = 'saddlers-yard-cafe';

  it('comes in through no joint: tightening changes nothing', () => {
    const { slope, truth } = played(NAME);
    const perMinute = micronFromPa(truth.leakPaPerS * 60);
    expect(slope(0) / perMinute).toBeCloseTo(1, 1);
    expect(slope(1) / perMinute).toBeCloseTo(1, 1);
  });
});

describe('a leak at the sensor’s own joint', () => {
  const NAME = 'observatory-lane-office';

  it('looks like one of the system while both are joined', () => {
    const { slope, truth } = played(NAME);
    expect(slope()).toBeGreaterThan(LIMIT_PER_MINUTE);
    expect(slope() / micronFromPa(truth.leakPaPerS * 60)).toBeCloseTo(1, 1);
  });

  it('rises hundreds of times faster with the system shut off', () => {
    const { slope, timesOf, around } = played(NAME);
    const [shutS = NaN] = timesOf('stub_shut');
    const alone = (around(shutS + 160) - around(shutS + 40)) / 2;
    expect(alone).toBeGreaterThan(200 * slope());
    // A tight sensor stays where it was.
    const tight = playedInOrder(NAME);
    const [alsoShutS = NaN] = tight.timesOf('stub_shut');
    expect(Math.abs(tight.around(alsoShutS + 160) - tight.around(alsoShutS - 20))).toBeLessThan(5);
  });
});

describe('refrigerant in the oil', () => {
  const NAME = 'fern-court-laundry';

  it('draws the pull-down out, with no plateau', () => {
    const { timeTo, around } = played(NAME);
    expect(timeTo(250)).toBeGreaterThan(1.8 * playedInOrder(NAME).timeTo(250));
    for (let minute = 4; minute < 25; minute += 3) {
      expect(around((minute + 3) * 60)).toBeLessThan(0.97 * around(minute * 60));
    }
  });

  it('goes on bending in the hold, neither a line nor level', () => {
    const { held } = played(NAME);
    const thirds = [15, 315, 615].map((fromS) => held(fromS + 285) - held(fromS));
    expect(thirds[1]).toBeLessThan(0.8 * (thirds[0] ?? NaN));
    expect(thirds[2]).toBeLessThan(0.85 * (thirds[1] ?? NaN));
    expect(thirds[2]).toBeGreaterThan(200);
  });
});

describe('a flooded system broken with nitrogen twice', () => {
  const NAME = 'priory-street-gymnasium';

  it('stands still near the triple point in the first pull-down only', () => {
    const { timesOf, rows } = played(NAME);
    const [firstS = NaN, secondS = NaN] = timesOf('nitrogen_break');
    const near = (fromS: number, toS: number): number =>
      rows
        .slice(fromS, toS)
        .filter(({ pressurePa }) => pressurePa !== null && pressurePa > 500 && pressurePa < 800)
        .length;
    expect(near(0, firstS)).toBeGreaterThan(10 * 60);
    expect(near(firstS, secondS)).toBeLessThan(60);
    expect(near(secondS, rows.length)).toBeLessThan(60);
  });

  it('is deeper after each, and dry at the end', () => {
    const { timesOf, around, held } = played(NAME);
    const [first = NaN, second = NaN] = timesOf('nitrogen_break').map((atS) => around(atS - 20));
    expect(second).toBeLessThan(0.7 * first);
    expect(held(900)).toBeLessThan(350);
    expect(held(900) - held(600)).toBeLessThan(5);
  });
});

describe('a radio that loses the sensor', () => {
  const NAME = 'tannery-lane-studio';

  it('leaves gaps of minutes, and hears of a sensor that began anew', () => {
    const { rows } = played(NAME);
    const unheard = rows.filter(({ heard }) => !heard).length;
    expect(unheard).toBe(140 + 90 + 200);
    expect(rows[0]?.restarts).toBe(0);
    expect(rows.at(-1)?.restarts).toBe(1);
  });

  it('lets the helper do nothing on what he has not heard', () => {
    const { rows, isolatedS, timeTo } = played(NAME);
    // It has been deep for long before he hears of it.
    expect(isolatedS - 20 - timeTo(250)).toBeGreaterThan(60);
    expect(rows.filter(({ heard, event }) => !heard && event !== null)).toEqual([]);
  });

  it('says nothing against the system, which holds', () => {
    const { held } = played(NAME);
    expect(held(900) - held(600)).toBeLessThan(5);
  });
});

describe('air caught in a ball valve', () => {
  const NAME = 'lantern-court-library';

  it('makes one step when the valve is turned, in an otherwise flat hold', () => {
    const { timesOf, around, held, truth } = played(NAME);
    const [turnedS = NaN] = timesOf('sections_opened');
    expect(truth.toldS).toBe(turnedS + 1);
    // Boyle: a millilitre of room air spread over 4.3 L.
    const stepMicron = micronFromPa((101_300 * 1e-6) / 4.3e-3);
    expect(around(turnedS + 20) - around(turnedS - 20)).toBeGreaterThan(0.9 * stepMicron);
    expect(around(turnedS + 20) - around(turnedS - 20)).toBeLessThan(1.05 * stepMicron);
    expect(Math.abs(held(460) - held(160))).toBeLessThan(15);
    expect(Math.abs(held(900) - held(600))).toBeLessThan(5);
  });
});

describe('sun and clouds', () => {
  it('make the hold go with the temperature, down and up', () => {
    const { rows, held, isolatedS } = played('vineyard-pavilion');
    const temperatureC = (sinceS: number): number => rows[isolatedS + sinceS]?.temperatureC ?? NaN;
    expect(temperatureC(450)).toBeLessThan(temperatureC(30) - 1);
    expect(held(450)).toBeLessThan(held(30) - 10);
    expect(temperatureC(900)).toBeGreaterThan(temperatureC(450) + 1);
    expect(held(900)).toBeGreaterThan(held(450) + 20);
    expect(held(900)).toBeLessThan(500);
  });
});
