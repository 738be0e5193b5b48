/** From a fitted rise to a word: which fits say what, what is withheld, and how long to wait. */
import { DEFAULT_SHEET, type Sheet } from '../../../../protocol/sheet.ts';
import type { RiseFit } from '../../../../web/analysis/rise/rise-fit.ts';
import { type Kind, KINDS } from '../../../../web/analysis/rise/rise-kinds.ts';
import type { Seen } from '../../../../web/analysis/verdict/pass-withheld.ts';
import { judgeRise, seesSystem } from '../../../../web/analysis/verdict/verdict.ts';
import { describe, expect, test } from 'vitest';

const SHEET: Sheet = {
  ...DEFAULT_SHEET,
  ...{ leakLimitPaPerS: 0.01, holdS: 900, endLimitPa: 70, allowedRisePa: 25 },
};
const about = (estimate: number, off = 0) => ({
  ...{ estimate, low: Math.max(estimate - off, 0), high: estimate + off },
});

interface Told {
  readonly kinds?: Partial<Record<Kind, number>>;
  readonly leak?: { estimate: number; low: number; high: number };
  readonly end?: { estimate: number; low: number; high: number };
  readonly straightHigh?: number;
  readonly leakAbove?: number;
}

function fitOf({
  kinds = { tight_dry: 1 },
  leak,
  end = about(36, 2),
  straightHigh = 0.003,
  leakAbove = 0,
}: Told): RiseFit {
  const leakPaPerS = leak ?? about(0.001, 0.001);
  const straight = {
    leakPaPerS: { estimate: 0.001, low: 0, high: straightHigh },
    leakAbove: () => leakAbove,
  };
  return {
    ...{ startPa: 30, leakPaPerS, moisturePa: about(5, 1), endPa: end, noisePa: 0.1 },
    pressureAt: (heldS) => 30 + 0.001 * heldS,
    levellingRateAt: () => 0,
    posterior: {
      ...{ leakPaPerS, leakAbove: () => leakAbove, straight, endPa: end, levelledPa: about(5, 1) },
      kinds: Float64Array.from(KINDS, (kind) => kinds[kind] ?? 0),
      ...{ coefficients: new Float64Array(1), startPa: 30, agreeing: 0 },
      told: { logLikelihoodAt: () => 0, atPaPerS: [0], priors: [1], middleS: 0 },
    },
  };
}

const SEEN: Seen = {
  ...{ heldS: 900, sinceEvenS: 900, isolationSure: true, step: false, falling: false, gap: false },
  pressurePa: 36,
  steepening: { presentPaPerS: 0.001, grownPaPerS: 0, sigmaPaPerS: 0.0001 },
  hiddenByTemperature: { paPerS: 0, isMeasured: true },
};
const judged = (told: Told | null, seen: Partial<Seen> = {}, sheet: Partial<Sheet> = {}) =>
  judgeRise(told === null ? null : fitOf(told), { ...SHEET, ...sheet }, { ...SEEN, ...seen });
const word = (...given: Parameters<typeof judged>) => judged(...given).verdict;

describe('a pass', () => {
  test('is said of what is tight and dry, and waits for nothing', () => {
    expect(judged({})).toEqual({
      ...{ verdict: 'tight_dry', reservations: [], keepsRule: true, moreS: null },
      leaning: 'tight_dry',
    });
  });

  test.each<[string, Told, Partial<Seen>]>([
    ['not likely enough', { kinds: { tight_dry: 0.79 } }, {}],
    ['a leak above the limit is not excluded', { leakAbove: 0.0031 }, {}],
    ['the inflow may be near its limit', { straightHigh: 0.0074 }, {}],
    ['the rule may not be kept', { end: { estimate: 40, low: 38, high: 56 } }, {}],
    ['readings are missing', {}, { gap: true }],
    ['before a quarter of the hold', {}, { heldS: 224 }],
  ])('is not said: %s', (_what, told, seen) => {
    expect(judged(told, seen)).toMatchObject({ verdict: 'undecided' });
  });

  test.each<[string, Told, Partial<Seen>]>([
    ['as likely as that', { kinds: { tight_dry: 0.81 } }, {}],
    ['a leak as good as excluded', { leakAbove: 0.0029 }, {}],
    ['the inflow below 72 hundredths of its limit', { straightHigh: 0.0071 }, {}],
    ['the end below what is allowed', { end: { estimate: 40, low: 38, high: 55 } }, {}],
    ['after a quarter of the hold', {}, { heldS: 225, sinceEvenS: 225 }],
  ])('is said: %s', (_what, told, seen) => {
    expect(word(told, seen)).toBe('tight_dry');
  });

  test('once said is kept further than it would be said', () => {
    const leaning = (told: Told) => judged(told).leaning;
    expect(leaning({ kinds: { tight_dry: 0.51 } })).toBe('tight_dry');
    expect(leaning({ kinds: { tight_dry: 0.5 } })).toBeNull();
    expect(leaning({ leakAbove: 0.019 })).toBe('tight_dry');
    expect(leaning({ leakAbove: 0.021 })).toBeNull();
    expect(leaning({ straightHigh: 0.0087 })).toBe('tight_dry');
    expect(leaning({ straightHigh: 0.0089 })).toBeNull();
    expect(leaning({ end: { estimate: 40, low: 38, high: 56 } })).toBe('tight_dry');
    expect(leaning({ end: { estimate: 80, low: 75, high: 85 } })).toBeNull();
  });

  test('is withheld where the valve may be open, where it has just come to rest, and where ice may hide', () => {
    expect(judged({}, { isolationSure: false, heldS: 600 })).toMatchObject({
      ...{ verdict: 'undecided', reservations: ['isolation_unsure'], moreS: 300 },
    });
    expect(judged({}, { sinceEvenS: 100 })).toMatchObject({
      ...{ verdict: 'undecided', reservations: ['evening_out'], moreS: 350 },
    });
    expect(word({}, { sinceEvenS: 450 })).toBe('tight_dry');
    const steeper = { presentPaPerS: 0.006, grownPaPerS: 0.0015, sigmaPaPerS: 0.0009 };
    expect(judged({}, { steepening: steeper, heldS: 600 })).toMatchObject({
      ...{ verdict: 'undecided', reservations: ['steepening'], moreS: 300, leaning: 'tight_dry' },
    });
    // 0.0036 and 1.54 times the growth's upper end, 0.00298 Pa/s, are 0.73 of the limit.
    expect(word({}, { steepening: { ...steeper, presentPaPerS: 0.0028 } })).toBe('undecided');
    for (const less of [{ grownPaPerS: 0.0013, presentPaPerS: 0.005 }, { presentPaPerS: 0.0026 }])
      expect(word({}, { steepening: { ...steeper, ...less } })).toBe('tight_dry');
    expect(
      word({}, { steepening: { presentPaPerS: 0.0085, grownPaPerS: 0.0009, sigmaPaPerS: 0 } }),
    ).toBe('tight_dry');
    const surely = { presentPaPerS: 0.008, grownPaPerS: 0.0019, sigmaPaPerS: 0.0009 };
    expect(judged({}, { steepening: surely }).leaning).toBeNull();
    // However surely it was said before: the interval beside it would reach beyond the limit.
    expect(judged({ leak: { estimate: 0.003, low: 0, high: 0.0101 } })).toMatchObject({
      ...{ verdict: 'undecided', reservations: ['steepening'], leaning: null },
    });
    // The inflow's interval ends at 0.002 Pa/s, and the limit is 0.01 Pa/s: 1.3 times 0.00615 and 1.2 times 0.00667 more.
    const swings = (paPerS: number, isMeasured = true) =>
      judged({}, { hiddenByTemperature: { paPerS, isMeasured }, heldS: 600 });
    expect(swings(0.0061).verdict).toBe('tight_dry');
    expect(swings(0.0062)).toMatchObject({
      ...{ verdict: 'undecided', reservations: ['temperature'], moreS: 300, leaning: 'tight_dry' },
    });
    expect(swings(0.0067).leaning).toBeNull();
    expect(swings(0.0061, false).verdict).toBe('tight_dry');
    expect(swings(0.0062, false).reservations).toEqual(['temperature_unknown']);
    // Ice at −25 °C has 63 Pa, less than three times the limit of 70 Pa; at −10 °C it has 260 Pa.
    expect(judged({}, {}, { coldestTemperatureC: -25 })).toMatchObject({
      ...{ verdict: 'undecided', reservations: ['ice_possible'], moreS: null },
    });
    expect(word({}, {}, { coldestTemperatureC: -10 })).toBe('tight_dry');
  });
});

describe('a growth too small for these readings to show', () => {
  // 1.54 times 1.645 times 0.0035 Pa/s are 0.0089: with 0.001 Pa/s just below the limit of 0.01.
  const coarse = { presentPaPerS: 0.001, grownPaPerS: 0, sigmaPaPerS: 0.0035 };
  const coarser = { ...coarse, sigmaPaPerS: 0.0036 };

  test('keeps a pass from being said, not one from being kept', () => {
    expect(word({}, { steepening: coarse })).toBe('tight_dry');
    expect(judged({}, { steepening: coarser })).toMatchObject({
      ...{ verdict: 'undecided', reservations: ['between_limits'], leaning: 'tight_dry' },
    });
    expect(judged({}, { steepening: coarser, heldS: 600 })).toMatchObject({
      ...{ verdict: 'undecided', reservations: ['too_early'], moreS: 300 },
    });
    // What slows down has less to come.
    expect(word({}, { steepening: { ...coarser, grownPaPerS: -0.001 } })).toBe('tight_dry');
  });

  test('of a few readings is not known: the whole hold has to be seen', () => {
    expect(word({}, { steepening: null })).toBe('tight_dry');
    expect(judged({}, { steepening: null, heldS: 899 })).toMatchObject({
      ...{ verdict: 'undecided', reservations: ['too_early'], leaning: 'tight_dry' },
    });
  });
});

describe('what is wrong', () => {
  const WET: Told = { kinds: { moisture: 0.95 }, end: about(90, 5) };
  const LEAK: Told = {
    kinds: { leak: 0.95 },
    leak: about(0.1, 0.01),
    end: about(120, 5),
    leakAbove: 1,
    straightHigh: 0.1,
  };

  test('is moisture where that is likely, and the hold breaks its rule', () => {
    expect(word(WET)).toBe('moisture');
    expect(word({ ...WET, kinds: { moisture: 0.92 } })).toBe('undecided');
    expect(word({ ...WET, kinds: { moisture: 0.85, some_moisture: 0.15 } })).toBe('moisture');
    expect(word({ ...WET, kinds: { moisture: 0.8, some_moisture: 0.2 } })).toBe('undecided');
    expect(word({ ...WET, end: about(70, 30) })).toBe('undecided');
    expect(judged({ ...WET, kinds: { moisture: 0.89 } }).leaning).toBe('moisture');
    expect(judged({ ...WET, kinds: { moisture: 0.88 } }).leaning).toBeNull();
  });

  test('is named with a leak that would be called one by itself', () => {
    expect(word({ ...WET, leak: { estimate: 0.03, low: 0.021, high: 0.04 } })).toBe(
      'leak_and_moisture',
    );
    expect(word({ ...WET, leak: { estimate: 0.03, low: 0.019, high: 0.04 } })).toBe('moisture');
  });

  test('is not said to be water alone above what water can have', () => {
    // At 0 °C water has 611 Pa.
    const seen = { pressurePa: 1500 };
    expect(judged(WET, seen, { metalTemperatureC: 0 })).toMatchObject({
      ...{ verdict: 'undecided', reservations: ['between_limits', 'not_water_alone'] },
    });
    expect(word(WET, seen)).toBe('moisture');
    expect(word(WET, { pressurePa: 300 }, { metalTemperatureC: 0 })).toBe('moisture');
    expect(word(WET, { pressurePa: null }, { metalTemperatureC: 0 })).toBe('moisture');
  });

  test('is a leak where both words that name one are likely enough together, by the likelier', () => {
    expect(word(LEAK)).toBe('leak');
    const mixed = (leak: number, both: number, small = 0): Told => ({
      ...LEAK,
      kinds: { leak, leak_and_moisture: both, small_leak: small },
    });
    expect(word(mixed(0.5, 0.44))).toBe('leak');
    // A quick release and a slow one together look like both: those take more.
    expect(word(mixed(0.44, 0.545))).toBe('leak_and_moisture');
    expect(word(mixed(0.4, 0.535, 0.05))).toBe('leak_and_moisture');
    expect(word(mixed(0.44, 0.535))).toBe('undecided');
    expect(judged(mixed(0.44, 0.515)).leaning).toBe('leak_and_moisture');
    expect(judged(mixed(0.44, 0.505)).leaning).toBeNull();
    expect(word(mixed(0.4, 0.44, 0.1))).toBe('leak');
    expect(word(mixed(0.93, 0))).toBe('undecided');
    expect(word(mixed(0.5, 0.43))).toBe('undecided');
  });

  test('before the end of the hold has to be one of them for the most part', () => {
    const seen = { heldS: 600 };
    const mixed = (leak: number, both: number): Told => ({
      ...LEAK,
      kinds: { leak, leak_and_moisture: both },
    });
    expect(word(mixed(0.71, 0.25), seen)).toBe('leak');
    expect(word(mixed(0.69, 0.27), seen)).toBe('undecided');
    expect(word(mixed(0.28, 0.71), seen)).toBe('leak_and_moisture');
    expect(word(mixed(0.69, 0.27), { heldS: 899 })).toBe('undecided');
    expect(word(mixed(0.69, 0.27), { heldS: 900 })).toBe('leak');
    expect(judged(mixed(0.61, 0.35), seen).leaning).toBe('leak');
    expect(judged(mixed(0.59, 0.37), seen).leaning).toBeNull();
  });

  test('alone leaves open how much is moisture, where that does not show', () => {
    const mixed = (leak: number, both: number, small = 0): Told => ({
      ...LEAK,
      kinds: { leak, leak_and_moisture: both, small_leak: small },
    });
    const reservations = (told: Told, seen: Partial<Seen> = {}) => judged(told, seen).reservations;
    expect(reservations(mixed(0.96, 0.031))).toEqual(['moisture_besides']);
    expect(reservations(mixed(0.96, 0.029))).toEqual([]);
    expect(reservations(mixed(0.5, 0.029, 0.46))).toEqual([]);
    expect(reservations(mixed(0.44, 0.55))).toEqual([]);
    expect(reservations(mixed(0.5, 0.44), { step: true })).toEqual(['step', 'moisture_besides']);
  });
});

describe('no word', () => {
  test('within three minutes, whatever it looks like', () => {
    expect(judged({ kinds: { leak: 1 }, leakAbove: 1 }, { heldS: 179 })).toMatchObject({
      ...{ verdict: 'undecided', reservations: ['too_early'], moreS: 721, leaning: null },
    });
    expect(word({ kinds: { leak: 1 }, leakAbove: 1 }, { heldS: 180 })).toBe('leak');
    expect(judged({}, { heldS: 100, step: true, gap: true }).reservations).toEqual([
      'too_early',
      'step',
      'gap',
    ]);
  });

  test('of a sensor that does not see the system, of a fall, and of too few readings', () => {
    expect(judged({}, {}, { sensorSees: 'stub' })).toEqual({
      ...{ verdict: 'undecided', reservations: ['not_the_system'], keepsRule: true, moreS: null },
      leaning: null,
    });
    expect(judged({}, { falling: true })).toMatchObject({
      reservations: ['falling'],
      moreS: null,
      keepsRule: true,
    });
    expect(judged(null, { heldS: 500 })).toMatchObject({
      reservations: ['too_early'],
      keepsRule: null,
      moreS: 400,
    });
    expect(judged(null, { heldS: 890 })).toMatchObject({ moreS: 30 });
    expect(judged(null, { gap: true }).reservations).toEqual(['gap']);
    const views = (['system', 'unknown', 'section', 'stub', 'pump_side'] as const).filter(
      (sensorSees) => seesSystem({ ...SHEET, sensorSees }),
    );
    expect(views).toEqual(['system', 'unknown']);
  });

  const OPEN: Told = { kinds: { tight_dry: 0.5, leak: 0.5 }, leakAbove: 0.5 };

  test('during the hold is too early, and after it between the limits, with what else is to be said', () => {
    expect(judged(OPEN, { heldS: 600, step: true })).toMatchObject({
      reservations: ['too_early', 'step'],
      moreS: 300,
    });
    expect(judged(OPEN, { step: true, gap: true }).reservations).toEqual([
      'between_limits',
      'step',
      'gap',
    ]);
  });

  test('after the hold is waited for while the inflow’s interval narrows, as the time to the power of 1.5', () => {
    const wait = (leak: Told['leak'], heldS = 900) =>
      judged({ ...OPEN, leak: leak ?? about(0) }, { heldS }).moreS;
    // 0.004 over the limit of 0.01, and 0.008 below: half of that is there after 2^(2/3) of the time.
    expect(wait({ estimate: 0.014, low: 0.006, high: 0.1 })).toBe(
      Math.round(900 * (2 ** (2 / 3) - 1)),
    );
    expect(wait({ estimate: 0.006, low: 0, high: 0.014 })).toBe(
      Math.round(900 * (2 ** (2 / 3) - 1)),
    );
    expect(wait({ estimate: 0.014, low: 0.0099, high: 0.1 })).toBe(30);
    expect(wait({ estimate: 0.011, low: 0.001, high: 0.1 })).toBeNull();
    expect(wait({ estimate: 0.01, low: 0.009, high: 0.011 })).toBeNull();
  });
});

describe('the rule', () => {
  const keeps = (end: Told['end'], sheet: Partial<Sheet> = {}) =>
    judged({ end: end ?? about(0) }, {}, sheet).keepsRule;

  test('is kept where the end is surely no higher, broken where it surely is, and else open', () => {
    // Starts at 30 Pa, may rise by 25 Pa.
    expect(keeps({ estimate: 50, low: 45, high: 55 })).toBe(true);
    expect(keeps({ estimate: 50, low: 45, high: 55.1 })).toBeNull();
    expect(keeps({ estimate: 60, low: 55, high: 65 })).toBeNull();
    expect(keeps({ estimate: 60, low: 55.1, high: 65 })).toBe(false);
    expect(keeps({ estimate: 50, low: 45, high: 55 }, { endLimitPa: 50 })).toBeNull();
    expect(keeps({ estimate: 52, low: 51, high: 55 }, { endLimitPa: 50 })).toBe(false);
  });
});
