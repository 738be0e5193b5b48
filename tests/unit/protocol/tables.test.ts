/** Tables and small rules that everybody agrees on. */
import { describe, expect, test } from 'vitest';
import {
  absoluteFromGauge,
  gaugeFromAbsolute,
  gaugeFromUnit,
  inGaugeUnit,
} from '../../../protocol/gauge-pressure.ts';
import { type Job, jobOf, jobsIn, WHOLE_JOB } from '../../../protocol/job.ts';
import { liquidKgPerM3 } from '../../../protocol/liquid-densities.ts';
import type { Mark } from '../../../protocol/mark.ts';
import { NITROGEN_STEPS } from '../../../protocol/nitrogen-steps.ts';
import { partOf, partSchema } from '../../../protocol/part-of-recording.ts';
import { PASS_RULE_IDS, PASS_RULES, passRuleOf } from '../../../protocol/pass-rules.ts';
import { PROBLEM_CODES, ProblemError, PROBLEMS } from '../../../protocol/problems.ts';
import { isSimulated, isTypedIn, knowsWallTime, ORIGINS } from '../../../protocol/recording.ts';
import { isFlammable, REFRIGERANT_NUMBERS, REFRIGERANTS } from '../../../protocol/refrigerants.ts';
import { scenarioOfTitle, titleOfScenario } from '../../../protocol/rehearsal-title.ts';
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { isOfSameStretch, type SignOff } from '../../../protocol/sign-off.ts';
import { CLOSING_STEPS, STEP_IDS } from '../../../protocol/ticked-steps.ts';
import { triplePlanOf } from '../../../protocol/triple-plan.ts';
import { TUBE_SIZES } from '../../../protocol/tube-sizes.ts';
import {
  celsiusFromKelvin,
  kelvinFromCelsius,
  micronFromPa,
  temperatureFromC,
  temperatureToC,
} from '../../../protocol/units.ts';
import { recordingTopic, readTopic, vanSchema, vanTopic } from '../../../protocol/van-topics.ts';
import { expectExactShape } from '../../support/exact-shape.ts';

describe('refrigerants', () => {
  test('each is there once, with all that its loss and its danger need', () => {
    expect(REFRIGERANTS.map(({ number }) => number)).toEqual([...REFRIGERANT_NUMBERS]);
    expect(new Set(REFRIGERANT_NUMBERS).size).toBe(15);
    for (const one of REFRIGERANTS) {
      expect(['second_hand', 'memory'], one.number).toContain(one.classEvidence);
      // Between ammonia’s 17 g/mol and 120; vapours flow at some 10 µPa·s; liquids boil well above 1 bar at 20 °C.
      expect(one.kgPerMol).toBeGreaterThan(0.016);
      expect(one.kgPerMol).toBeLessThan(0.12);
      expect(one.viscosityPaS).toBeGreaterThan(5e-6);
      expect(one.viscosityPaS).toBeLessThan(20e-6);
      expect(one.vapourPressurePa).toBeGreaterThan(2e5);
    }
  });

  test('burn by their class (ISO 817): all but A1', () => {
    const of = (safetyClass: string) =>
      REFRIGERANTS.filter((one) => one.safetyClass === safetyClass).map(({ number }) => number);
    expect(of('A3')).toEqual(['R-290', 'R-600a']);
    expect(of('B2L')).toEqual(['R-717']);
    expect(of('A2L')).toEqual(['R-32', 'R-454B', 'R-454C', 'R-1234yf']);
    expect(of('A1')).toHaveLength(8);
    expect((['A1', 'A2L', 'A3', 'B2L'] as const).map(isFlammable)).toEqual([
      false,
      true,
      true,
      true,
    ]);
  });

  test('each has a liquid, lighter than CO₂’s neighbours where it is a hydrocarbon or ammonia', () => {
    for (const number of REFRIGERANT_NUMBERS) {
      const density = liquidKgPerM3(number);
      const isLight = ['R-290', 'R-600a', 'R-717'].includes(number);
      expect(density, number).toBeGreaterThan(isLight ? 450 : 700);
      expect(density, number).toBeLessThan(isLight ? 650 : 1300);
    }
    expect(liquidKgPerM3('unknown')).toBeNull();
  });
});

test('tubes are named as they are ordered, each by its standard', () => {
  for (const size of TUBE_SIZES) {
    const isInch = size.standard === 'ASTM B280';
    if (!isInch) expect(size.standard).toBe('EN 12735-1');
    expect(size.name).toMatch(isInch ? /^(\d )?\d\/\d+ in$/u : /^\d+ × 1(\.5)? mm$|^54 × 2 mm$/u);
    expect(['annealed', 'drawn', null]).toContain(size.temper);
    expect(['second_hand', 'memory']).toContain(size.evidence);
    if (isInch) continue;
    const [outerMm, wallMm] = size.name.split(/ × | mm/u).map(Number);
    expect(size.outerDiameterM * 1000).toBeCloseTo(outerMm ?? 0, 9);
    expect(size.wallM * 1000).toBeCloseTo(wallMm ?? 0, 9);
    expect(size).toMatchObject({ temper: null, evidence: 'memory' });
  }
  const fromMemory = TUBE_SIZES.filter(
    ({ standard, evidence }) => standard === 'ASTM B280' && evidence === 'memory',
  );
  expect(fromMemory.map(({ name }) => name)).toEqual(['1 5/8 in', '2 1/8 in', '2 5/8 in']);
});

describe('pass rules', () => {
  test('say from where they are, and how well that is known', () => {
    expect(Object.keys(PASS_RULES)).toEqual(PASS_RULE_IDS.filter((id) => id !== 'own'));
    for (const [id, rule] of Object.entries(PASS_RULES)) {
      expect(rule.id).toBe(id);
      expect(['standard', 'specification']).toContain(rule.kind);
      expect(rule.source?.document).toMatch(/[A-Z]/u);
      expect(['read', 'second_hand', 'memory']).toContain(rule.source?.evidence);
      if (rule.source?.evidence === 'read') expect(rule.source.clause).toMatch(/\d/u);
      if (rule.source?.evidence === 'memory') expect(rule.source.clause).toBeNull();
    }
  });

  test.each([
    // UFGS: 300 micron, an hour, 500 at its end, not below 2 °C; three times 300, held for two hours.
    ['ufgs-15182', 300, 60, 500, null, [], 2],
    ['ufgs-15741n', 300, 120, 300, null, [300, 300], null],
    // Handling code: 500 micron, an hour, 600 at its end, risen by 100; twice 4500 before.
    ['au-nz-deep', 500, 60, 600, 100, [], null],
    ['au-nz-triple', 500, 60, 600, null, [4500, 4500], null],
    ['canada-300', 300, null, null, null, [], null],
    ['ashrae-guideline-3', 1000, null, 2500, null, [], null],
    ['ashrae-15-2', 500, 10, 1500, null, [], null],
  ] as const)('%s', (id, finalMicron, holdMin, endMicron, riseMicron, before, coldestC) => {
    const rule = passRuleOf(id, DEFAULT_SHEET);
    const micron = (pa: number | null) =>
      pa === null ? null : Math.round(micronFromPa(pa) * 1e6) / 1e6;
    expect(micron(rule.finalPa)).toBe(finalMicron);
    expect(rule.holdS === null ? null : rule.holdS / 60).toBe(holdMin);
    expect(micron(rule.endLimitPa)).toBe(endMicron);
    expect(micron(rule.allowedRisePa)).toBe(riseMicron);
    expect(rule.beforePa.map(micron)).toEqual(before);
    expect(rule.coldestC).toBe(coldestC);
  });

  test('one’s own is what stands on the sheet', () => {
    const { targetPa, holdS, endLimitPa, allowedRisePa } = DEFAULT_SHEET;
    expect(passRuleOf('own', DEFAULT_SHEET)).toEqual({
      ...{ id: 'own', kind: 'maker_sheet', source: null, beforePa: [], coldestC: null },
      ...{ finalPa: targetPa, holdS, endLimitPa, allowedRisePa },
    });
    expect(PASS_RULES['en-378-2'].finalPa).toBe(270);
  });

  test('plan several evacuations where they ask for them, the last one held', () => {
    const plan = triplePlanOf('ufgs-15741n');
    expect(plan?.from).toBe('ufgs-15741n');
    expect(plan?.breakToPa).toBe(101_325);
    const cycles = plan?.cycles.map(({ targetPa, holdS }) => [
      Math.round(micronFromPa(targetPa)),
      holdS,
    ]);
    expect(cycles).toEqual([
      [300, null],
      [300, null],
      [300, 7200],
    ]);
    const taught = triplePlanOf('teaching');
    expect(taught).toMatchObject({ from: 'teaching', breakToPa: 101_325 });
    expect(taught?.cycles.map(({ targetPa }) => Math.round(micronFromPa(targetPa)))).toEqual([
      ...[4000, 1500, 500],
    ]);
    expect(taught?.cycles.map(({ holdS }) => holdS)).toEqual([900, 1200, null]);
    for (const id of ['own', 'ufgs-15182', 'au-nz-deep', 'canada-300'] as const) {
      expect(triplePlanOf(id), id).toBeNull();
    }
  });
});

test('nitrogen goes in by steps that rise, the first at 3 bar, each held for minutes at least', () => {
  expect(NITROGEN_STEPS.map(({ id }) => id)).toEqual(['usual', 'ufgs-15741n', 'ufgs-15182']);
  for (const { id, source, steps } of NITROGEN_STEPS) {
    expect(source).toEqual(id === 'usual' ? null : PASS_RULES[id].source);
    for (const [at, { pressure, leastS }] of steps.entries()) {
      expect(leastS).toBeGreaterThanOrEqual(300);
      expect(pressure?.kind ?? 'gauge').toBe('gauge');
      const before = steps[at - 1]?.pressure;
      if (pressure !== null && before != null)
        expect(pressure.gaugePa).toBeGreaterThan(before.gaugePa);
    }
  }
  const bySource = (id: string) =>
    NITROGEN_STEPS.find((one) => one.id === id)?.steps.map(({ pressure, leastS }) => [
      pressure === null ? null : Math.round(inGaugeUnit(pressure.gaugePa, 'psi')),
      leastS / 3600,
    ]);
  expect(bySource('ufgs-15741n')).toEqual([
    [150, 2],
    [300, 2],
  ]);
  expect(bySource('ufgs-15182')).toEqual([[null, 24]]);
  expect(bySource('usual')).toEqual([
    [44, 1 / 12],
    [145, 1 / 12],
    [null, 1],
  ]);
});

describe('units', () => {
  test('kelvin and back, Fahrenheit and back', () => {
    expect(kelvinFromCelsius(0)).toBe(273.15);
    expect(celsiusFromKelvin(0)).toBe(-273.15);
    expect(celsiusFromKelvin(kelvinFromCelsius(21.5))).toBeCloseTo(21.5, 9);
    expect(temperatureFromC(100, '°F')).toBeCloseTo(212, 9);
    expect(temperatureToC(32, '°F')).toBe(0);
    expect([temperatureFromC(-40, '°C'), temperatureToC(-40, '°C')]).toEqual([-40, -40]);
    expect([temperatureFromC(-40, '°F'), temperatureToC(-40, '°F')]).toEqual([-40, -40]);
  });

  test('a gauge shows what is above the air around it', () => {
    const shown = gaugeFromUnit(10, 'bar');
    expect(shown).toEqual({ kind: 'gauge', gaugePa: 1e6 });
    const absolute = absoluteFromGauge(shown, 90_000);
    expect(absolute).toEqual({ kind: 'absolute', absolutePa: 1_090_000 });
    expect(gaugeFromAbsolute(absolute, 90_000)).toEqual(shown);
    expect(gaugeFromUnit(1, 'MPa').gaugePa).toBe(inGaugeUnit(1e6, 'kPa') * 1000);
  });
});

test('a rehearsal’s title has its number where there is one', () => {
  for (const scenario of [
    { name: 'station-road-florist', seed: null },
    { name: 'generated-mixed', seed: 4711 },
  ]) {
    expect(scenarioOfTitle(titleOfScenario(scenario))).toEqual(scenario);
  }
  expect(titleOfScenario({ name: 'generated-mixed', seed: 4711 })).toBe('generated-mixed 4711');
  for (const name of ['', 'two words 4', 'x 4 ', ' x 4', 'x 4a', 'x a4']) {
    expect(scenarioOfTitle(name)).toEqual({ name, seed: null });
  }
});

describe('recordings', () => {
  const played = { id: 'a', name: 'Gauge, simulated' };
  const sensor = (name: string) => ({
    ...{ ...played, name, manufacturer: null, model: null, serial: null, firmware: null },
    ...{ label: null, calibratedOn: null },
  });
  const taken = (origin: (typeof ORIGINS)[number]) => ({
    ...{ format: 'x', origin, recordingId: 1, startedAtMs: 0, title: '', hash: '', held: true },
    softwareVersion: '',
  });

  test('are simulated where any of them was played, here or where it was taken from', () => {
    const of = (origin: (typeof ORIGINS)[number], names: readonly string[], from = origin) =>
      isSimulated({
        origin,
        sensors: names.map(sensor),
        takenFrom: origin === 'import' ? taken(from) : null,
      });
    expect(of('sensor', ['Gauge'])).toBe(false);
    expect(of('sensor', [])).toBe(false);
    expect(of('rehearsal', [])).toBe(true);
    expect(of('import', [], 'sensor')).toBe(false);
    expect(of('import', [], 'rehearsal')).toBe(true);
    expect(of('sensor', ['Gauge', 'Gauge, simulated'])).toBe(true);
    expect(of('sensor', ['simulated, Gauge'])).toBe(false);
  });

  test('were typed in here or where they were taken from', () => {
    expect(isTypedIn({ origin: 'typed_in', takenFrom: null })).toBe(true);
    expect(isTypedIn({ origin: 'import', takenFrom: taken('typed_in') })).toBe(true);
    expect(isTypedIn({ origin: 'import', takenFrom: taken('sensor') })).toBe(false);
    expect(isTypedIn({ origin: 'sensor', takenFrom: null })).toBe(false);
  });

  test('know the time on the wall where somebody measured as it passed', () => {
    expect(ORIGINS.filter(knowsWallTime)).toEqual(['sensor', 'typed_in']);
  });
});

describe('jobs', () => {
  const begun = (id: number, elapsedS: number): Mark => {
    return { id, elapsedS, kind: 'job_begun', text: '', madeBy: 'hand' };
  };

  test('that begin at the same moment are told apart by which was said first', () => {
    const marks = [begun(9, 50), begun(4, 50), begun(5, 20)];
    expect(jobsIn(marks).map(({ beginMark }) => beginMark)).toEqual([0, 5, 4, 9]);
    expect(jobOf(marks, 4)).toEqual({ beginMark: 4, fromS: 50, untilS: 50 });
    expect(jobOf(marks, 9)).toEqual({ beginMark: 9, fromS: 50, untilS: null });
    expect(jobOf(marks, 6)).toBeNull();
  });

  test('are a part of a recording, unless there is no other', () => {
    expect(partOf(WHOLE_JOB)).toBeNull();
    const first = { beginMark: 0, fromS: 0, untilS: 20 };
    expect(partOf(first)).toEqual(first);
    const last = { beginMark: 5, fromS: 20, untilS: null };
    expect(partOf(last)).toEqual(last);
    expectExactShape(partSchema, { beginMark: 5, fromS: 20, untilS: 50 });
    expect(partSchema.safeParse({ ...first, untilS: -1 }).success).toBe(false);
  });

  test('what was signed for is still the same where it begins there and its last reading is in it', () => {
    const signed: SignOff = {
      ...{ beginMark: 5, fromS: 20, name: 'A', licence: '', remark: '', quoted: '', lastS: 40 },
      ...{ softwareVersion: '', atMs: 0 },
    };
    const job = (fromS: number, untilS: number | null): Job => ({ beginMark: 5, fromS, untilS });
    expect(isOfSameStretch(signed, job(20, null))).toBe(true);
    expect(isOfSameStretch(signed, job(20, 50))).toBe(true);
    expect(isOfSameStretch(signed, job(20, 40))).toBe(false);
    expect(isOfSameStretch(signed, job(19, null))).toBe(false);
    expect(isOfSameStretch({ ...signed, lastS: null }, job(20, 30))).toBe(true);
    expect(isOfSameStretch({ ...signed, lastS: null }, job(10, 30))).toBe(false);
  });

  test('end with steps that are steps of the work, in the same order', () => {
    expect(STEP_IDS.slice(-CLOSING_STEPS.length)).toEqual([...CLOSING_STEPS]);
    expect(new Set(STEP_IDS).size).toBe(STEP_IDS.length);
  });
});

describe('topics of a van', () => {
  const key = { recordingId: 12, startedAtMs: 5 };

  test.each(['facts', 'readings', 'deleted', 'outlook'] as const)('%s of a recording', (kind) => {
    expect(readTopic(recordingTopic('van-7', key, kind))).toEqual({ van: 'van-7', kind });
    expect(readTopic(`ebbline/1/van-7/${kind}`)).toBeNull();
  });

  test.each(['state', 'inventory', 'asked'] as const)('%s of the van', (kind) => {
    expect(readTopic(vanTopic('van-7', kind))).toEqual({ van: 'van-7', kind });
    expect(readTopic(`ebbline/1/van-7/recordings/5-12/${kind}`)).toBeNull();
    expect(readTopic(`ebbline/1/van-7/more/${kind}`)).toBeNull();
  });

  test.each(['ebbline/1', 'other/1/van-7/state', 'ebbline/1/van-7/jobs/5-12/facts', ''])(
    '%j is none of ours',
    (topic) => {
      expect(readTopic(topic)).toBeNull();
    },
  );

  test.each([
    ['a', true],
    ['van-7', true],
    ['7', true],
    ['a'.repeat(40), true],
    ['a'.repeat(41), false],
    ['', false],
    ['-a', false],
    ['Van', false],
    ['a/b', false],
    ['a#', false],
    ['#a', false],
  ])('a van called %j: %s', (name, isTaken) => {
    expect(vanSchema.safeParse(name).success).toBe(isTaken);
  });
});

describe('problems', () => {
  test('each says what is so and what to do', () => {
    expect(PROBLEM_CODES).toEqual(Object.keys(PROBLEMS));
    for (const code of PROBLEM_CODES) {
      expect(code).toMatch(/^[a-z]+(_[a-z]+)*$/u);
      for (const said of [PROBLEMS[code].meaning, PROBLEMS[code].remedy]) {
        expect(said, code).toMatch(/^[A-Z“].{10,}/u);
      }
    }
  });

  test('as an error say what failed exactly, where that is known', () => {
    const cause = new Error('why');
    const known = new ProblemError('wrong_code', 'ABCD', { cause });
    expect(known.message).toBe(`${PROBLEMS.wrong_code.meaning} (ABCD)`);
    expect(known).toMatchObject({
      name: 'ProblemError',
      code: 'wrong_code',
      detail: 'ABCD',
      cause,
    });
    const bare = new ProblemError('wrong_code');
    expect(bare.message).toBe(PROBLEMS.wrong_code.meaning);
    expect(bare.detail).toBe('');
  });
});
