/** What a nitrogen test has shown, in words. */
import type { GaugeUnit } from '../../protocol/gauge-pressure.ts';
import type { NitrogenGauge, NitrogenReading } from '../../protocol/nitrogen-test.ts';
import type { NitrogenSteps } from '../../protocol/nitrogen-steps.ts';
import type { NitrogenCompared } from '../analysis/nitrogen/nitrogen-test.ts';
import type { SaidConclusion } from './said-conclusion.ts';
import { sayBetween } from './say-between.ts';
import { sayDuration, sayRoughDuration } from './say-duration.ts';
import {
  gaugeUnitOf,
  sayDifference,
  sayDifferenceBetween,
  sayGauge,
  sayGaugeSetting,
} from './say-gauge-pressure.ts';
import { sayMagnitude } from './say-magnitude.ts';
import { sayExactly } from './say-number.ts';
import type { Speech } from './speech.ts';

/** No gauge of the trade shows less. */
const WORTH_SAYING_PA = 10;

const HOUR_S = 3600;

const TONES: Readonly<Record<NitrogenCompared['verdict'], SaidConclusion['tone']>> = {
  holds: 'good',
  leaks: 'warning',
  undecided: 'calm',
  not_settled: 'calm',
};

/** The verdict's own words, then what they rest on. */
export function sayNitrogen(
  tested: NitrogenCompared,
  unit: GaugeUnit,
  speech: Speech,
): SaidConclusion {
  const words = speech.wording.nitrogen;
  const { verdict, moreS } = tested;
  const word = words.verdicts[verdict];
  const noLoss = sayNoLoss(tested, unit, speech);
  return {
    tone: TONES[verdict],
    headline: noLoss ?? word,
    sure: noLoss === null ? '' : word,
    detail: [
      words.stands({
        expected: sayGauge(tested.expected, unit, speech),
        now: sayGauge(tested.to.pressure, unit, speech),
      }),
      sayMissing(tested, unit, speech),
      ...tested.reservations.map((reservation) => words.reservations[reservation]),
      ...(moreS === null ? [] : [words.wait({ more: sayRoughDuration(moreS) })]),
    ],
  };
}

/** What it would have seen, what counts, and what the gas itself makes of the temperature. */
export function sayNitrogenGrounds(
  tested: NitrogenCompared,
  unit: GaugeUnit,
  speech: Speech,
): string[] {
  const words = speech.wording.nitrogen;
  const { expected, from, heldS, realGasPa } = tested;
  const perHour = (paPerS: number) => sayPerHour(paPerS, unit, speech);
  const warmedPa = expected.gaugePa - from.pressure.gaugePa;
  return [
    words.leastSeen({ length: sayDuration(heldS), rate: perHour(tested.leastSeenPaPerS) }),
    ...sayFlow(tested, speech),
    words.counts({ rate: perHour(tested.countsFromPaPerS) }),
    ...(Math.abs(warmedPa) < WORTH_SAYING_PA
      ? []
      : [
          words.realGas({
            amount: sayDifference(warmedPa, unit, speech),
            by: sayDifference(realGasPa, unit, speech),
          }),
        ]),
  ];
}

/** Undecided, what it has shown already says more than that it is; null where a loss may have been seen. */
function sayNoLoss(tested: NitrogenCompared, unit: GaugeUnit, speech: Speech): string | null {
  const { verdict, reservations, differencePa, heldS, leastSeenPaPerS } = tested;
  const tells = !reservations.includes('risen') && !reservations.includes('too_little');
  if (verdict !== 'undecided' || !tells || differencePa.high < 0) return null;
  return speech.wording.nitrogen.noLoss({
    length: sayDuration(heldS),
    rate: sayPerHour(leastSeenPaPerS, unit, speech),
  });
}

function sayPerHour(paPerS: number, unit: GaugeUnit, speech: Speech): string {
  const amount = sayDifference(paPerS * HOUR_S, unit, speech);
  return speech.wording.nitrogen.perHour({ amount });
}

function sayMissing({ differencePa }: NitrogenCompared, unit: GaugeUnit, speech: Speech): string {
  const words = speech.wording.nitrogen;
  const { estimate, low, high } = differencePa;
  if (high < 0) {
    const lost = { estimate: -estimate, low: -high, high: -low };
    return words.missing({ amount: sayDifferenceBetween(lost, unit, speech) });
  }
  return low > 0
    ? words.more({ amount: sayDifferenceBetween(differencePa, unit, speech) })
    : words.nothing({ amount: sayDifference((high - low) / 2, unit, speech) });
}

function sayFlow(tested: NitrogenCompared, speech: Speech): string[] {
  const words = speech.wording.nitrogen;
  const { lossPaM3PerS: loss, leastSeenPaM3PerS: least, verdict } = tested;
  if (loss === null || least === null) return [];
  const digits = (value: number) => sayMagnitude(value, speech);
  const named = (amount: string) => `${amount} Pa·m³/s`;
  return verdict === 'leaks'
    ? [words.lossFlow({ flow: sayBetween(loss, digits, named, speech) })]
    : [words.leastFlow({ flow: named(digits(least)) })];
}

/** On the job sheet: '3 readings, the last 506.3 psi (gauge)'. */
export function sayNitrogenReadings(readings: readonly NitrogenReading[], speech: Speech): string {
  const latest = readings.at(-1);
  if (latest === undefined) return speech.wording.sheet.notEntered;
  const last = sayGauge(latest.pressure, gaugeUnitOf(speech), speech);
  return speech.wording.nitrogen.count({ count: readings.length, last });
}

export function sayNitrogenGauge(gauge: NitrogenGauge, speech: Speech): string {
  const words = speech.wording.nitrogen;
  const percent = sayExactly(Number((gauge.accuracyShare * 100).toPrecision(3)), speech);
  return words.class({ percent, ofWhat: words.ofWhat[gauge.accuracyOf] });
}

/** 'Usual: 3 bar (gauge) for 5 min, … Common practice, no source.' */
export function sayNitrogenSteps(steps: NitrogenSteps, unit: GaugeUnit, speech: Speech): string {
  const words = speech.wording.nitrogen;
  const { source } = steps;
  const parts = steps.steps.map(({ pressure, leastS }) =>
    words.forAtLeast({
      pressure: pressure === null ? words.makersPressure : sayGaugeSetting(pressure, unit, speech),
      length: sayDuration(leastS),
    }),
  );
  const where = source === null ? words.noSource : `${source.document}.`;
  return `${parts.join('; ')}. ${where}`;
}
