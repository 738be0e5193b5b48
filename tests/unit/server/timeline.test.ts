import { describe, expect, test } from 'vitest';
import { Timeline, type Stamp } from '../../../server/sources/timeline.ts';
import { seeded } from '../../support/invented-curves.ts';

const WRAP = 2 ** 32;

const stamp = (sequence: number, uptimeMs: number, more: Partial<Stamp> = {}): Stamp => ({
  boot: 1,
  sequence: sequence % WRAP,
  uptimeMs: uptimeMs % WRAP,
  timeReset: false,
  ...more,
});

/** Seconds where it is placed, otherwise why not. */
function axis() {
  const timeline = new Timeline();
  return {
    heard: (one: Stamp, arrivedS: number) => said(timeline.placeHeard(one, arrivedS)),
    fetched: (one: Stamp) => said(timeline.placeFetched(one)),
  };
}

function said(placed: ReturnType<Timeline['placeHeard']>): number | string {
  return placed.kind === 'placed' ? placed.elapsedS : placed.kind;
}

describe('a sensor’s time axis', () => {
  test('follows the sensor’s clock, however late the readings arrive', () => {
    const { heard } = axis();
    expect(heard(stamp(0, 5000), 0)).toBe(0);
    expect(heard(stamp(1, 6000), 3.7)).toBe(1);
    expect(heard(stamp(2, 7000), 3.8)).toBe(2);
  });

  test('takes a repeated reading once, also out of order', () => {
    const { heard } = axis();
    heard(stamp(0, 0), 0);
    heard(stamp(2, 2000), 2);
    expect(heard(stamp(1, 1000), 2.1)).toBe(1);
    expect(heard(stamp(2, 2000), 2.2)).toBe('duplicate');
    expect(heard(stamp(1, 1000), 2.3)).toBe('duplicate');
    expect(heard(stamp(3, 3000), 3)).toBe(3);
  });

  test('goes on across the wrap of the uptime, with a straggler from before it', () => {
    const { heard } = axis();
    heard(stamp(0, WRAP - 2000), 0);
    expect(heard(stamp(2, WRAP + 500), 2.5)).toBe(2.5);
    expect(heard(stamp(1, WRAP - 500), 2.6)).toBe(1.5);
    expect(heard(stamp(3, WRAP + 1500), 3.5)).toBe(3.5);
  });

  test('goes on across the wrap of the number', () => {
    const { heard, fetched } = axis();
    heard(stamp(WRAP - 2, 0), 0);
    expect(heard(stamp(WRAP + 1, 3000), 3)).toBe(3);
    expect(fetched(stamp(WRAP - 1, 1000))).toBe(1);
    expect(fetched(stamp(WRAP, 2000))).toBe(2);
    expect(fetched(stamp(WRAP + 1, 3000))).toBe('duplicate');
    expect(heard(stamp(WRAP + 2, 4000), 4)).toBe(4);
  });

  test('anchors a restarted sensor at its arrival, though number and clock begin anew', () => {
    const { heard } = axis();
    heard(stamp(0, 0), 0);
    heard(stamp(1, 1000), 1);
    expect(heard(stamp(0, 200, { boot: 2 }), 60)).toBe(60);
    expect(heard(stamp(1, 1200, { boot: 2 }), 61.3)).toBe(61);
  });

  test('takes a sensor for restarted that begins anew without another boot id', () => {
    const { heard } = axis();
    for (let n = 0; n < 2000; n += 1) heard(stamp(n, 100 * n), n / 10);
    // Number and time as they were long ago.
    expect(heard(stamp(3, 300), 900)).toBe(900);
    expect(heard(stamp(4, 400), 900.2)).toBe(900.1);
    // A number that came a moment ago, with another time.
    expect(heard(stamp(4, 7400), 950)).toBe(950);
  });

  test('is anchored anew where the sensor sets its clock anew, whether it says so or not', () => {
    const { heard } = axis();
    heard(stamp(0, 50_000), 0);
    expect(heard(stamp(1, 10, { timeReset: true }), 1)).toBe(1);
    expect(heard(stamp(1, 10, { timeReset: true }), 1.2)).toBe('duplicate');
    expect(heard(stamp(2, 1010), 2.1)).toBe(2);
    expect(heard(stamp(3, 5), 3)).toBe(3);
  });

  test('is anchored anew where the sensor sets its clock on without a word', () => {
    const { heard } = axis();
    heard(stamp(0, 0), 0);
    expect(heard(stamp(1, 20 * 86_400_000), 1.5)).toBe(1.5);
    expect(heard(stamp(2, 20 * 86_400_000 + 1000), 2.6)).toBe(2.5);
  });
});

describe('readings fetched later', () => {
  test('take the places at which they were measured, each once', () => {
    const { heard, fetched } = axis();
    heard(stamp(10, 1000), 0);
    heard(stamp(900, 90_000), 92);
    expect(fetched(stamp(11, 1100))).toBeCloseTo(0.1, 9);
    expect(fetched(stamp(11, 1100))).toBe('duplicate');
    expect(fetched(stamp(10, 1000))).toBe('duplicate');

    expect(fetched(stamp(899, 89_900))).toBeCloseTo(88.9, 9);
    // A straggler that was asked for meanwhile.
    expect(heard(stamp(899, 89_900), 92.1)).toBe('duplicate');
  });

  test('lie before the first one heard; those from before the recording are no part of it', () => {
    const { heard, fetched } = axis();
    heard(stamp(100, 10_000), 5);
    expect(fetched(stamp(99, 9000))).toBe(4);
    expect(fetched(stamp(50, 5000))).toBe(0);
    expect(fetched(stamp(0, 0))).toBe('unplaceable');
  });

  test('of a boot that was never heard have no place', () => {
    const { heard, fetched } = axis();
    expect(fetched(stamp(1, 1))).toBe('unplaceable');
    heard(stamp(5, 500), 0);
    expect(fetched(stamp(1, 1, { boot: 9 }))).toBe('unplaceable');
  });

  test('of the boot before find their place there', () => {
    const { heard, fetched } = axis();
    heard(stamp(0, 0), 0);
    heard(stamp(2, 2000), 2);
    heard(stamp(0, 0, { boot: 2 }), 60);
    expect(fetched(stamp(1, 1000))).toBe(1);
    expect(fetched(stamp(1, 1000, { boot: 2 }))).toBe(61);
  });

  test('from before and after a clock that was set anew lie on their own side of it', () => {
    const { heard, fetched } = axis();
    heard(stamp(0, 50_000), 0);
    heard(stamp(5, 3000), 5);
    expect(fetched(stamp(1, 51_000))).toBe(1);
    expect(fetched(stamp(2, 0, { timeReset: true }))).toBe(2);
    expect(fetched(stamp(3, 1000))).toBe(3);
    expect(fetched(stamp(4, 2000))).toBe(4);
  });

  test('from after a clock that was set anew need not bring the reading that says so', () => {
    const { heard, fetched } = axis();
    heard(stamp(0, 50_000), 0);
    heard(stamp(50, 5000), 60);
    expect(fetched(stamp(40, 4000))).toBe(59);
  });
});

describe('a time axis that goes on after the bridge was away', () => {
  const goOn = () => {
    const timeline = new Timeline({
      boot: 1,
      numbers: [
        { from: 100, to: 149 },
        { from: 160, to: 200 },
      ],
      lastNumber: 200,
      lastUptimeMs: 20_000,
      lastElapsedS: 12,
    });
    return {
      heard: (one: Stamp, arrivedS: number) => said(timeline.placeHeard(one, arrivedS)),
      fetched: (one: Stamp) => said(timeline.placeFetched(one)),
    };
  };

  test('follows the sensor’s clock and not the computer’s', () => {
    const { heard } = goOn();
    expect(heard(stamp(900, 90_000), 5000)).toBe(82);
  });

  test('takes what was missed then and since, and nothing that was recorded', () => {
    const { heard, fetched } = goOn();
    heard(stamp(900, 90_000), 5000);
    expect(fetched(stamp(201, 20_100))).toBeCloseTo(12.1, 9);
    expect(fetched(stamp(150, 15_000))).toBe(7);
    expect(fetched(stamp(149, 14_900))).toBe('duplicate');
    expect(fetched(stamp(200, 20_000))).toBe('duplicate');
    expect(heard(stamp(200, 20_000), 5001)).toBe('duplicate');
  });

  test('anchors a sensor that was restarted meanwhile at its arrival', () => {
    const { heard } = goOn();
    expect(heard(stamp(3, 300, { boot: 2 }), 5000)).toBe(5000);
  });
});

describe('a sensor’s clock that runs wrong', () => {
  /** Readings each second of true time, heard 5 to 60 ms late; data time less true time at the end, s. */
  function offAfter(minutes: number, error: number): number {
    const random = seeded(Math.round(1e6 * (error + 1)) + minutes);
    const { heard } = axis();
    let elapsedS = 0;
    for (let trueS = 0; trueS <= 60 * minutes; trueS += 1) {
      const late = 0.005 + 0.055 * random();
      const uptimeMs = Math.round(1000 * (1 + error) * (trueS + 7));
      elapsedS = Number(heard(stamp(trueS, uptimeMs), trueS + late));
    }
    return elapsedS - 60 * minutes;
  }

  test.each([0.02, -0.03, 0.004])('by %d is put right within minutes', (error) => {
    const lost = offAfter(15, error);
    expect(Math.abs(lost)).toBeLessThan(9 * 60 * Math.abs(error) + 0.3);
    // Nothing more is lost later on.
    expect(Math.abs(offAfter(120, error) - lost)).toBeLessThan(1);
  });

  test.each([0, 5e-5, -1e-4])('by %d, as crystals do, is left alone', (error) => {
    expect(Math.abs(offAfter(120, error) - 7200 * error)).toBeLessThan(0.1);
  });
});
