/** A leak found by holds of one section after another, and the sensor's own joint excluded or found out. */
import type { Mark, MarkKind } from '../../../../protocol/mark.ts';
import type { Sheet, SheetEntry } from '../../../../protocol/sheet.ts';
import { advance } from '../../../../simulators/physics/advance.ts';
import type { DuctSetup } from '../../../../simulators/physics/rig-setup.ts';
import { createRig, totalPressurePa } from '../../../../simulators/physics/rig-state.ts';
import type { InflowSetup } from '../../../../simulators/physics/section-setup.ts';
import type { Estimate } from '../../../../web/analysis/conclusions.ts';
import { leakHunt } from '../../../../web/analysis/hunt/leak-hunt.ts';
import { leakPlace } from '../../../../web/analysis/hunt/leak-place.ts';
import { History } from '../../../../web/analysis/readings/history.ts';
import { marksToSee, partSeen, volumeOf } from '../../../../web/analysis/seen/seen-part.ts';
import { lessStub, stubFinding } from '../../../../web/analysis/seen/stub-baseline.ts';
import { slowestVerdict } from '../../../../web/analysis/verdict/slowest-verdict.ts';
import { sayHuntHold } from '../../../../web/words/say-hunt.ts';
import { MICRON } from '../../../support/english-speech.ts';
import { normal, seeded } from '../../../support/invented-curves.ts';
import { leakOf, smallRig, smallSection, STANDING } from '../../../support/small-rig.ts';
import { describe, expect, test } from 'vitest';

const STUB_M3 = 1e-4;
const INDOOR_M3 = 2.4e-3;
const LIQUID_M3 = 0.9e-3;
const SYSTEM_M3 = STUB_M3 + INDOOR_M3 + LIQUID_M3;
/** Some 12 micron a minute in all of it. */
const LEAK_PA_M3_PER_S = 0.0267 * SYSTEM_M3;
const ALL = { isolation: 0, indoor: 1, liquid: 1 };

interface Part {
  readonly marks: readonly MarkKind[];
  readonly fields: Partial<Sheet>;
  readonly lengthS: number;
  readonly pumps: boolean;
  readonly openings: Readonly<Record<string, number>>;
}
const pumping = (marks: readonly MarkKind[]): Part => {
  return { marks, fields: {}, lengthS: 150, pumps: true, openings: ALL };
};
const held = (
  marks: readonly MarkKind[],
  fields: Partial<Sheet>,
  open: Partial<typeof ALL>,
): Part => {
  const openings = { isolation: 0, indoor: 0, liquid: 0, ...open };
  return { marks, fields, lengthS: 300, pumps: false, openings };
};

/** The sensor sits on a manifold between two valves: to the indoor side, and to the liquid line. */
const HUNT: readonly Part[] = [
  pumping(['pump_on']),
  held(['isolated'], { sensorSees: 'system' }, ALL),
  held(['stub_shut'], { sensorSees: 'stub' }, {}),
  pumping(['stub_opened', 'reopened']),
  held(['isolated'], { sensorSees: 'section', seenSection: 'Indoor side' }, { indoor: 1 }),
  pumping(['reopened']),
  held(['isolated'], { sensorSees: 'section', seenSection: 'Liquid line' }, { liquid: 1 }),
];

function hunted(
  leaks: {
    readonly stub?: InflowSetup;
    readonly indoor?: InflowSetup;
    readonly liquid?: InflowSetup;
  },
  volumesKnown: boolean,
  parts = HUNT,
) {
  const inflows = (leak: InflowSetup | undefined) => (leak === undefined ? [] : [leak]);
  const small = smallRig({ volumeM3: STUB_M3, airPa: 20_000, inflows: inflows(leaks.stub) });
  const joint = (to: number, valve: string): DuctSetup => ({
    between: [0, to],
    diameterM: 6e-3,
    lengthM: 0.2,
    count: 1,
    coreDiameterM: null,
    valve,
    oneWay: false,
  });
  const beside = { airPa: 20_000 };
  const setup = {
    ...small,
    sections: [
      ...small.sections,
      smallSection({
        ...beside,
        name: 'indoor',
        volumeM3: INDOOR_M3,
        inflows: inflows(leaks.indoor),
      }),
      smallSection({
        ...beside,
        name: 'liquid',
        volumeM3: LIQUID_M3,
        inflows: inflows(leaks.liquid),
      }),
    ],
    ducts: [joint(1, 'indoor'), joint(2, 'liquid')],
    valves: ['isolation', 'indoor', 'liquid'].map((name) => ({ name, opening: 1 })),
    pump: { ...small.pump, displacementM3PerS: 1e-3, ultimatePa: 15 },
  };
  let rig = createRig(setup);
  const random = seeded(12);
  const history = new History();
  const marks: Mark[] = [];
  const entries: SheetEntry[] = [
    {
      elapsedS: 0,
      fields: volumesKnown ? { volumeM3: SYSTEM_M3, stubVolumeM3: STUB_M3 } : {},
    },
  ];
  let nowS = 0;
  for (const part of parts) {
    for (const kind of part.marks) {
      marks.push({ id: marks.length + 1, kind, elapsedS: nowS, text: '', madeBy: 'hand' });
    }
    // A tap comes a moment after the valve.
    entries.push({ elapsedS: nowS === 0 ? 0 : nowS + 2, fields: part.fields });
    for (const endS = nowS + part.lengthS; nowS < endS;) {
      rig = advance(rig, 1, { ...STANDING, pumpOn: part.pumps, openings: part.openings });
      nowS += 1;
      const pressurePa = totalPressurePa(rig, 0) * (1 + 0.002 * normal(random));
      history.insert({ elapsedS: nowS, pressurePa, condition: 'ok', temperatureC: 20 });
    }
  }
  const sections = [
    { name: 'Indoor side', volumeM3: INDOOR_M3 + STUB_M3, hoseHere: true },
    { name: 'Liquid line', volumeM3: LIQUID_M3 + STUB_M3, hoseHere: false },
  ];
  const map = { elapsedS: 0, fields: volumesKnown ? { sections } : {} };
  return leakHunt(history, marks, [...entries, map], nowS);
}

function expectWithin(found: Estimate | null | undefined, truth: number): void {
  expect(found?.low).toBeLessThanOrEqual(truth);
  expect(found?.high).toBeGreaterThanOrEqual(truth);
}

describe('a leak in the liquid line', () => {
  const leak = { liquid: leakOf(LEAK_PA_M3_PER_S) };
  const known = hunted(leak, true);

  test('is found there, with the sensor’s own joint excluded', () => {
    expect(known.holds.map(({ part }) => part)).toEqual([
      { kind: 'system' },
      { kind: 'stub' },
      { kind: 'section', name: 'Indoor side' },
      { kind: 'section', name: 'Liquid line' },
    ]);
    expect(known.holds.map(({ verdict }) => verdict)).toEqual([
      'leaks',
      'no_leak',
      'no_leak',
      'leaks',
    ]);
    expect(known.stub).toBe('excluded');
    expect(known.place).toMatchObject({ kind: 'found', name: 'Liquid line' });
  });

  test('is as large there as in the whole system, as a flow', () => {
    const [system, , , liquid] = known.holds;
    expectWithin(system?.leakRatePaM3PerS, LEAK_PA_M3_PER_S);
    expectWithin(liquid?.leakRatePaM3PerS, LEAK_PA_M3_PER_S);
    expectWithin(liquid?.leakPaPerS, LEAK_PA_M3_PER_S / (LIQUID_M3 + STUB_M3));
    expect(liquid?.curve.length).toBeGreaterThan(20);
  });

  test('is found without volumes as well, but then there is no flow', () => {
    const unknown = hunted(leak, false);
    expect(unknown.place).toMatchObject({ kind: 'found', name: 'Liquid line' });
    expect(unknown.stub).toBe('excluded');
    expect(unknown.holds.every((hold) => hold.leakRatePaM3PerS === null)).toBe(true);
    expect(unknown.holds.every((hold) => hold.lessStub === null)).toBe(true);
  });
});

describe('a leak at the sensor’s own joint', () => {
  const leak = { stub: leakOf(LEAK_PA_M3_PER_S) };

  test('is found out, and no section is accused', () => {
    const { holds, stub, place } = hunted(leak, true);
    expect(stub).toBe('explains');
    expect(place).toEqual({ kind: 'sensor_first' });
    // What is left of the system may be nothing; its verdict stays what it was.
    expect(holds[0]?.lessStub?.low).toBe(0);
    expect(holds[0]?.verdict).toBe('leaks');
  });

  test('is suspected where no volume is known', () => {
    expect(hunted(leak, false)).toMatchObject({ stub: 'suspect', place: { kind: 'sensor_first' } });
  });
});

test('what is isolated within a hold makes a hold of its own', () => {
  const parts = [
    pumping(['pump_on']),
    held(['isolated'], { sensorSees: 'section', seenSection: 'Liquid line' }, { liquid: 1 }),
    held(['part_seen'], { sensorSees: 'section', seenSection: 'Indoor side' }, { indoor: 1 }),
  ];
  const { holds } = hunted({ liquid: leakOf(LEAK_PA_M3_PER_S) }, true, parts);
  expect(holds.map(({ part, verdict }) => [part, verdict])).toEqual([
    [{ kind: 'section', name: 'Liquid line' }, 'leaks'],
    [{ kind: 'section', name: 'Indoor side' }, 'no_leak'],
  ]);
});

describe('a leak that rises as fast as a filling', () => {
  /** A slow pump, two sections held after each other: the second one rises by 3 Pa a second. */
  function fastHunt(more: readonly [MarkKind, number][] = [], isolatedS = 1200) {
    const heldS = 300;
    const random = seeded(3);
    const history = new History();
    const pumped = (s: number) => 20 + 20_000 * Math.exp(-s / 60);
    const spells = [
      { lengthS: 600, at: pumped },
      { lengthS: 300, at: (s: number) => 20 + 0.001 * s },
      { lengthS: 300, at: () => 20 },
      { lengthS: heldS, at: (s: number) => 20 + 3 * s },
      { lengthS: 300, at: (s: number) => 20 + 3 * heldS * Math.exp(-s / 60) },
    ];
    let nowS = 0;
    for (const { lengthS, at } of spells) {
      for (let s = 1; s <= lengthS; s += 1) {
        nowS += 1;
        const pressurePa = at(s) * (1 + 0.002 * normal(random));
        history.insert({ elapsedS: nowS, pressurePa, condition: 'ok', temperatureC: 20 });
      }
    }
    const hands = [
      ['pump_on', 0],
      ['isolated', 600],
      ['reopened', 900],
      ['isolated', isolatedS],
      ['reopened', 1200 + heldS],
      ...more,
    ] as const;
    const marks = hands.map(([kind, elapsedS], at): Mark => {
      return { id: at + 1, kind, elapsedS, text: '', madeBy: 'hand' };
    });
    const sees = (elapsedS: number, seenSection: string): SheetEntry => {
      return { elapsedS, fields: { sensorSees: 'section', seenSection } };
    };
    const sections = [{ name: 'Liquid line', volumeM3: LIQUID_M3, hoseHere: true }];
    const map: SheetEntry = { elapsedS: 0, fields: { sections } };
    const entries = [map, sees(602, 'Indoor side'), sees(1202, 'Liquid line')];
    return leakHunt(history, marks, entries, nowS);
  }

  test('is listed, without a rate, and the section is named', () => {
    const { holds, place } = fastHunt();
    expect(holds.map(({ part, verdict, tooFast }) => [part, verdict, tooFast])).toEqual([
      [{ kind: 'section', name: 'Indoor side' }, 'no_leak', false],
      [{ kind: 'section', name: 'Liquid line' }, 'leaks', true],
    ]);
    expect(holds[1]).toMatchObject({ fromS: 1200, toS: 1500, leakRatePaM3PerS: null });
    expect(holds[1]?.curve.length).toBeGreaterThan(20);
    expect(place).toMatchObject({ kind: 'found', name: 'Liquid line' });
  });

  test('is listed up to where something else is seen', () => {
    expect(fastHunt([['part_seen', 1400]]).holds.at(-1)).toMatchObject({
      tooFast: true,
      toS: 1400,
    });
  });

  test('is none where a hand marked that it was filled, or opened to a part', () => {
    const isFast = (more: readonly [MarkKind, number][], isolatedS?: number) =>
      fastHunt(more, isolatedS).holds.some(({ tooFast }) => tooFast);
    expect(isFast([['nitrogen_break', 1210]])).toBe(false);
    expect(isFast([['charge_released', 1210]])).toBe(false);
    expect(isFast([['sections_opened', 1200]], 1185)).toBe(false);
    expect(isFast([['sections_shut', 1200]], 1185)).toBe(true);
    // Filled after a while of holding, it was no leak of that hold.
    expect(isFast([], 1140)).toBe(false);
    // One that was broken only after it had been pumped on was held before that.
    expect(isFast([['nitrogen_break', 1700]])).toBe(true);
  });

  test('is said in words, and not as a volume that is missing', () => {
    const fast = fastHunt().holds.at(-1);
    if (fast === undefined) throw new Error('two holds');
    expect(sayHuntHold(fast, MICRON)).toMatch(/too fast to fit/u);
    expect(sayHuntHold(fast, MICRON)).not.toMatch(/volume not known/u);
  });

  test('of the sensor alone makes its joints suspect', () => {
    const stub = { stub: leakOf(40 * STUB_M3) };
    const { holds, stub: finding } = hunted(stub, true, [
      pumping(['pump_on']),
      held(['isolated'], { sensorSees: 'system' }, ALL),
      pumping(['reopened']),
      held(['isolated', 'stub_shut'], { sensorSees: 'stub' }, {}),
    ]);
    expect(holds.map(({ part, tooFast }) => [part.kind, tooFast])).toEqual([
      ['system', false],
      ['stub', true],
    ]);
    expect(finding).toBe('suspect');
  });
});

describe('the stub’s own inflow', () => {
  const about = (estimate: number) => ({ estimate, low: 0.8 * estimate, high: 1.2 * estimate });
  const inflow = (leak: number, rate: number | null) => ({
    leakPaPerS: about(leak),
    leakRatePaM3PerS: rate === null ? null : about(rate),
  });

  test('is taken off with its interval, and never below nothing', () => {
    const left = lessStub(inflow(1, 10), inflow(1, 4));
    expect(left?.estimate).toBe(6);
    expect(left?.low).toBeCloseTo(6 - Math.hypot(2, 0.8), 9);
    expect(left?.high).toBeCloseTo(6 + Math.hypot(2, 0.8), 9);
    expect(lessStub(inflow(1, 4), inflow(1, 10))).toEqual({ estimate: 0, low: 0, high: 0 });
    expect(lessStub(inflow(1, null), inflow(1, 10))).toBeNull();
    expect(lessStub(inflow(1, 10), null)).toBeNull();
  });

  test('explains all, part or nothing of the whole, by its volume', () => {
    expect(stubFinding(inflow(30, 10), inflow(1, 10))).toBe('explains');
    expect(stubFinding(inflow(30, 5), inflow(1, 10))).toBe('part');
    expect(stubFinding(inflow(30, 1), inflow(1, 10))).toBe('excluded');
    expect(stubFinding(inflow(0.5, null), inflow(1, null))).toBe('excluded');
    expect(stubFinding(inflow(2, null), inflow(1, null))).toBe('undecided');
    // One volume alone compares nothing but how fast they rise.
    expect(stubFinding(inflow(30, 5), inflow(1, null))).toBe('suspect');
    expect(stubFinding(inflow(0.5, null), inflow(1, 10))).toBe('excluded');
    expect(stubFinding(null, inflow(1, null))).toBe('not_tested');
  });
});

test('where the leak is stays undecided until one is well ahead', () => {
  const section = (name: string, leakChance: number) => {
    return { part: { kind: 'section' as const, name }, leakChance };
  };
  const place = (...chances: number[]) =>
    leakPlace(
      chances.map((chance, at) => section(`Section ${at + 1}`, chance)),
      'excluded',
    );
  expect(leakPlace([], 'excluded')).toEqual({ kind: 'no_sections' });
  expect(place(0.6, 0.5)).toMatchObject({ kind: 'undecided', name: null });
  expect(place(0.8, 0.1)).toMatchObject({ kind: 'undecided', name: 'Section 1' });
  expect(place(0.01, 0.02)).toMatchObject({ kind: 'none_of_them' });
  expect(place(0.99, 0.98, 0.01)).toMatchObject({
    kind: 'several',
    names: ['Section 1', 'Section 2'],
  });
});

test('a volume is that of the part that was seen when it was entered', () => {
  const at = (elapsedS: number, fields: Partial<Sheet>): SheetEntry => ({ elapsedS, fields });
  const entries = [
    at(0, { volumeM3: 0.004 }),
    at(100, { sensorSees: 'section', seenSection: 'Coil' }),
    at(200, { volumeM3: 0.001 }),
    at(300, { sensorSees: 'system' }),
  ];
  const coil = { kind: 'section', name: 'Coil' } as const;
  expect(volumeOf({ kind: 'system' }, entries, [])).toBe(0.004);
  expect(volumeOf(coil, entries, [])).toBe(0.001);
  expect(volumeOf(coil, entries, [{ name: 'Coil', volumeM3: 0.002 }])).toBe(0.002);
  expect(volumeOf({ kind: 'stub' }, entries, [])).toBeNull();
  expect(partSeen([], entries, { fromS: 150, toS: 300 })).toEqual(coil);
  expect(partSeen([], entries, { fromS: 300, toS: 400 })).toEqual({ kind: 'system' });
  // Inner valves that are shut leave a part, whatever that is called.
  const shut = [
    { id: 1, kind: 'sections_shut' as const, elapsedS: 290, text: '', madeBy: 'hand' as const },
  ];
  expect(partSeen(shut, entries, { fromS: 300, toS: 400 })).toEqual({ kind: 'section', name: '' });
  expect(partSeen(shut, entries, { fromS: 280, toS: 400 })).toEqual({ kind: 'system' });
});

test('what is said shortly after a hold has begun is of it, and what is said later of the next', () => {
  const said = (elapsedS: number): SheetEntry[] => [
    { elapsedS: 0, fields: { sensorSees: 'system' } },
    { elapsedS, fields: { sensorSees: 'section', seenSection: 'Coil' } },
  ];
  const hold = { fromS: 1000, toS: 1600 };
  const coil = { kind: 'section', name: 'Coil' };
  expect(partSeen([], said(1000), hold)).toEqual(coil);
  expect(partSeen([], said(1060), hold)).toEqual(coil);
  expect(partSeen([], said(1061), hold)).toEqual({ kind: 'system' });
  expect(partSeen([], said(1599), hold)).toEqual({ kind: 'system' });
  expect(partSeen([], said(1599), { fromS: 1600, toS: 2000 })).toEqual(coil);
  // At the end of a short one it is of the next as well.
  expect(partSeen([], said(1040), { fromS: 1000, toS: 1040 })).toEqual({ kind: 'system' });
});

test('the whole system is seen again by opening what was shut', () => {
  const marked = (...kinds: readonly MarkKind[]) =>
    kinds.map((kind, at) => ({
      id: at + 1,
      kind,
      elapsedS: 100 * (at + 1),
      text: '',
      madeBy: 'hand' as const,
    }));
  const system = { kind: 'system' } as const;
  const coil = { kind: 'section', name: 'Coil' } as const;
  const shut = marked('isolated', 'sections_shut');
  expect(marksToSee(system, shut)).toEqual(['sections_opened']);
  expect(marksToSee(coil, shut)).toEqual(['part_seen']);
  expect(marksToSee({ kind: 'stub' }, shut)).toEqual(['stub_shut']);
  const both = marked('sections_shut', 'stub_shut');
  expect(marksToSee(system, both)).toEqual(['stub_opened', 'sections_opened']);
  expect(marksToSee(coil, both)).toEqual(['stub_opened']);
  expect(marksToSee(system, marked('sections_shut', 'sections_opened'))).toEqual(['part_seen']);
  // And then it is.
  const now = { fromS: Infinity, toS: Infinity };
  expect(partSeen(shut, [], now)).toEqual({ kind: 'section', name: '' });
  expect(partSeen(marked('sections_shut', 'sections_opened'), [], now)).toEqual(system);
});

test('a pass of several sensors waits for the slowest, a leak does not', () => {
  const said = (verdict: Parameters<typeof slowestVerdict>[0][0]['verdict'], channel = 0) => {
    return { channel, verdict, moreS: verdict === 'undecided' ? 120 : null, seesSystem: true };
  };
  expect(slowestVerdict([said('tight_dry'), said('undecided', 1)])).toEqual({
    verdict: 'undecided',
    waiting: [1],
    finding: [],
    moreS: 120,
  });
  expect(slowestVerdict([said('tight_dry'), said('tight_dry', 1)])?.verdict).toBe('tight_dry');
  expect(slowestVerdict([said('undecided'), said('leak', 1)])).toMatchObject({
    verdict: 'leak',
    waiting: [0],
    finding: [1],
  });
  expect(slowestVerdict([said('moisture'), said('leak', 1)])?.verdict).toBe('leak_and_moisture');
  const atPump = { ...said('tight_dry', 1), seesSystem: false };
  expect(slowestVerdict([said('undecided'), atPump])?.verdict).toBe('undecided');
  expect(slowestVerdict([atPump])).toBeNull();
});
