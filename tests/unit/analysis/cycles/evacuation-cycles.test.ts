/** Evacuations told from the stages of a job: what each reached, and what was let in between. */
import type { Stage, StageName } from '../../../../web/analysis/conclusions.ts';
import { evacuationCycles } from '../../../../web/analysis/cycles/evacuation-cycles.ts';
import { History } from '../../../../web/analysis/readings/history.ts';
import { describe, expect, test } from 'vitest';

function heard(pressureAt: (t: number) => number | null, lengthS: number): History {
  const history = new History();
  for (let elapsedS = 1; elapsedS <= lengthS; elapsedS += 1) {
    const pressurePa = pressureAt(elapsedS);
    const condition = pressurePa === null ? 'over_range' : 'ok';
    history.insert({ elapsedS, pressurePa, condition, temperatureC: null });
  }
  return history;
}
const stage = (name: StageName, sinceS: number, more: Partial<Stage> = {}): Stage => ({
  ...{ name, sinceS, recognisedBy: 'curve', alternatives: [] },
  ...more,
});
const marked = { recognisedBy: 'mark' } as const;
/** To a thousandth of a pascal: pressures are kept in whole hundred-thousandths. */
function cyclesOf(...given: Parameters<typeof evacuationCycles>) {
  const tidy = (pa: number | null) => (pa === null ? null : Math.round(pa * 1000) / 1000);
  return evacuationCycles(...given).map((cycle) => ({
    ...cycle,
    depthPa: tidy(cycle.depthPa),
    endPa: tidy(cycle.endPa),
    brokenToPa: tidy(cycle.brokenToPa),
    restedFills: cycle.restedFills.map(({ atS, restPa }) => ({ atS, restPa: tidy(restPa) })),
  }));
}
const NOTHING = { unmarkedFill: 'none', restedFills: [], holds: [] };
/** Each stretch of time has a pressure of its own. */
const levels = (...steps: readonly (readonly [number, number | null])[]) => {
  return (t: number) => steps.findLast(([fromS]) => t >= fromS)?.[1] ?? null;
};

describe('a job with a break', () => {
  const curve = levels([0, 90_000], [100, 300], [300, 40], [500, 101_000], [700, 250], [800, 30]);
  const stages = [
    stage('waiting', 0),
    stage('pull_down', 100),
    stage('at_depth', 300),
    stage('nitrogen_break', 500, marked),
    stage('pull_down', 700),
    stage('rise', 900, marked),
  ];

  test('has the depth of each cycle, where it stood at its end, and what it was broken to', () => {
    const [first, second, ...more] = cyclesOf(heard(curve, 1000), stages, 1000);
    expect(more).toEqual([]);
    expect(first).toEqual({
      ...NOTHING,
      ...{ fromS: 100, toS: 500, depthPa: 40, endPa: 40, isBroken: true },
      brokenToPa: 101_000,
    });
    expect(second).toEqual({
      ...NOTHING,
      ...{ fromS: 700, toS: 1000, depthPa: 30, endPa: 30, isBroken: false, brokenToPa: null },
      holds: [{ fromS: 900, toS: 1000 }],
    });
  });

  test('does not know what it was broken to where that left the sensor’s range', () => {
    const out = (t: number) => (t >= 550 && t < 600 ? null : curve(t));
    expect(cyclesOf(heard(out, 1000), stages, 1000)[0]?.brokenToPa).toBeNull();
  });

  test('has the depth that lasted for five readings, not a spike', () => {
    const spiked = (t: number) => (t >= 400 && t < 402 ? 5 : curve(t));
    expect(cyclesOf(heard(spiked, 1000), stages, 1000)[0]?.depthPa).toBe(40);
    const dip = (t: number) => (t >= 400 && t < 408 ? 5 : curve(t));
    expect(cyclesOf(heard(dip, 1000), stages, 1000)[0]?.depthPa).toBe(5);
  });

  test('stood before a break where it stood in the minute before, a quick hand or not', () => {
    const early = (t: number) => (t >= 490 && t < 500 ? 60_000 : curve(t));
    expect(cyclesOf(heard(early, 1000), stages, 1000)[0]?.endPa).toBe(40);
    const lately = (t: number) => (t >= 425 && t < 500 ? 55 : curve(t));
    expect(cyclesOf(heard(lately, 1000), stages, 1000)[0]?.endPa).toBe(55);
    const before = (t: number) => (t >= 300 && t < 424 ? 55 : curve(t));
    expect(cyclesOf(heard(before, 1000), stages, 1000)[0]?.endPa).toBe(40);
  });

  test('stands now where it stands in the last quarter of a minute', () => {
    const rising = (t: number) => (t > 985 ? 70 : curve(t));
    expect(cyclesOf(heard(rising, 1000), stages, 1000)[1]?.endPa).toBe(70);
  });

  test('of which the sensor saw nothing has no depth', () => {
    const [first] = cyclesOf(new History(), stages, 1000);
    expect(first).toMatchObject({ depthPa: null, endPa: null, brokenToPa: null });
  });

  test('before anything was pumped has none', () => {
    expect(cyclesOf(heard(curve, 90), [stage('waiting', 0)], 90)).toEqual([]);
    expect(cyclesOf(heard(curve, 90), [], 90)).toEqual([]);
    const only = [stage('nitrogen_break', 10, marked)];
    expect(cyclesOf(heard(curve, 90), only, 90)).toEqual([]);
  });
});

describe('what came in without a mark', () => {
  const pumped = [stage('waiting', 0), stage('pull_down', 100)];
  const curve = (filledPa: number) => levels([0, 90_000], [100, 40], [500, filledPa], [700, 30]);

  test('is a break where it came to half an atmosphere', () => {
    const stages = [...pumped, stage('nitrogen_break', 500), stage('pull_down', 700)];
    const [first, second] = cyclesOf(heard(curve(60_000), 900), stages, 900);
    expect(first).toMatchObject({ toS: 500, isBroken: true, brokenToPa: 60_000 });
    expect(second).toMatchObject({ fromS: 700, isBroken: false });
  });

  test('is none where it came to less: then what was before is undone, and it may have been one', () => {
    const stages = [...pumped, stage('nitrogen_break', 500), stage('pull_down', 700)];
    const [only, ...more] = cyclesOf(heard(curve(20_000), 900), stages, 900);
    expect(more).toEqual([]);
    expect(only).toMatchObject({
      ...{ fromS: 100, toS: 900, isBroken: false, unmarkedFill: 'pumped_since' },
      ...{ depthPa: 30, restedFills: [{ atS: 500, restPa: 20_000 }], holds: [] },
    });
  });

  test('stands as long as it has not been pumped off', () => {
    const stages = [...pumped, stage('rise', 400), stage('nitrogen_break', 500)];
    const [only] = cyclesOf(heard(curve(20_000), 650), stages, 650);
    expect(only).toMatchObject({
      ...{ unmarkedFill: 'stands', restedFills: [], isBroken: false },
      holds: [{ fromS: 400, toS: 500 }],
    });
  });

  test('forgets the holds before it once it is pumped again', () => {
    const stages = [
      ...[...pumped, stage('rise', 400), stage('nitrogen_break', 500)],
      ...[stage('pull_down', 700), stage('rise', 800)],
    ];
    const [only] = cyclesOf(heard(curve(20_000), 900), stages, 900);
    expect(only?.holds).toEqual([{ fromS: 800, toS: 900 }]);
  });

  test('is the break that was marked within a minute after', () => {
    const broken = (markedS: number) => [
      ...[...pumped, stage('nitrogen_break', 500)],
      ...[stage('nitrogen_break', markedS, marked), stage('pull_down', 700)],
    ];
    const seen = heard(curve(20_000), 900);
    const [first] = cyclesOf(seen, broken(540), 900);
    expect(first).toMatchObject({ toS: 500, isBroken: true, unmarkedFill: 'none', depthPa: 40 });
    const [late] = cyclesOf(seen, broken(570), 900);
    expect(late).toMatchObject({ toS: 570, isBroken: true, unmarkedFill: 'stands' });
  });

  test('came to rest where it stood still in the second half, high enough and for long enough', () => {
    const rests = (filled: (t: number) => number, untilS = 700) => {
      const stages = [...pumped, stage('nitrogen_break', 500), stage('pull_down', untilS)];
      const of = (t: number) => (t >= 500 && t < untilS ? filled(t) : (curve(0)(t) ?? 0));
      return cyclesOf(heard(of, 900), stages, 900)[0]?.restedFills;
    };
    expect(rests(() => 3000)).toEqual([{ atS: 500, restPa: 3000 }]);
    expect(rests(() => 1900)).toEqual([]);
    // By 1.9 and by 3 % from the half to the end.
    expect(rests((t) => 10_000 + 2.1 * (t - 600))).toHaveLength(1);
    expect(rests((t) => 10_000 + 3.3 * (t - 600))).toEqual([]);
    expect(rests((t) => 10_000 - 3.3 * (t - 600))).toEqual([]);
    expect(rests(() => 3000, 539)).toEqual([]);
    expect(rests(() => 3000, 541)).toHaveLength(1);
  });
});

describe('a stop of the pump', () => {
  const stopped = (alternatives: readonly StageName[], more: readonly Stage[]) => [
    ...[stage('pull_down', 100), stage('pump_stopped', 500, { alternatives }), ...more],
  ];
  const curve = levels([0, 90_000], [100, 40], [500, 20_000], [700, 30]);

  test('may have been a break where the curve says so, once it is over', () => {
    const on = [stage('pull_down', 700)];
    const seen = heard(curve, 900);
    const restsOf = (stages: readonly Stage[], nowS: number) =>
      cyclesOf(seen, stages, nowS)[0]?.restedFills;
    expect(restsOf(stopped(['nitrogen_break'], on), 900)).toEqual([{ atS: 500, restPa: 20_000 }]);
    expect(restsOf(stopped(['rise'], on), 900)).toEqual([]);
    expect(restsOf(stopped(['nitrogen_break'], []), 650)).toEqual([]);
  });
});

test('air that is let in undoes all that was before', () => {
  const curve = levels([0, 90_000], [100, 40], [500, 101_000], [700, 30]);
  const stages = [
    ...[stage('pull_down', 100), stage('rise', 300), stage('nitrogen_break', 500, marked)],
    ...[stage('pull_down', 600), stage('vented', 650), stage('pull_down', 700)],
  ];
  expect(cyclesOf(heard(curve, 900), stages, 900)).toMatchObject([
    { ...NOTHING, fromS: 700, toS: 900, depthPa: 30 },
  ]);
  expect(cyclesOf(heard(curve, 690), stages.slice(0, -1), 690)).toEqual([]);
});
