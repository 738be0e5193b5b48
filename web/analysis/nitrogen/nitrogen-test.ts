/**
 * What a nitrogen test has shown: the pressure that the temperature explains, and what is missing beyond that.
 *
 * A pass says that no leak that counts is left, and needs the time to see one: as long as one could hide in the errors
 * of gauge and thermometer it is undecided, however still the needle stands.
 */
import {
  absoluteFromGauge,
  gaugeFromAbsolute,
  type GaugePressure,
} from '../../../protocol/gauge-pressure.ts';
import type { NitrogenGauge, NitrogenReading } from '../../../protocol/nitrogen-test.ts';
import { atmosphereAtHeightPa } from '../../../protocol/standard-atmosphere.ts';
import type { Estimate } from '../conclusions.ts';
import { kelvinOf, nitrogenSigmaPa, type TestedState } from './nitrogen-error.ts';
import { idealPa, nitrogenPa } from './nitrogen-gas.ts';

/** 90 % interval of a normal distribution. */
const Z90 = 1.645;
/** A leak is called beyond this many standard deviations, a pass beyond this many: the pass needs more. */
const Z_LEAKS = 2.58;
const Z_HOLDS = 3;
/** Gas from a regulator takes about so long to come to the metal's temperature: common practice, no source. */
const SETTLES_S = 900;
/** Just filled, gas may be this much denser or thinner than it will be: 15 K of 293. A setting of ours. */
const FILLING_SHARE = 0.05;
/** Further apart one thermometer does not tell what all of the gas does. A setting of ours. */
const MOST_APART_K = 5;

/** Below so much on the gauge nothing is tested, whatever stands still. A setting of ours. */
const LEAST_TESTED_PA = 1e5;

export type NitrogenVerdict = 'holds' | 'leaks' | 'undecided' | 'not_settled';
type NitrogenReservation =
  | 'just_filled' // the gas has not the metal's temperature yet
  | 'temperatures_apart' // one thermometer does not tell what all of the gas does
  | 'temperature_unknown'
  | 'too_soon' // a leak that counts could still hide
  | 'too_little' // at about the air's own pressure nothing is tested
  | 'filled_again' // it has risen since it lost: what was filled in hides no loss
  | 'risen'; // more than temperature explains: the cylinder is not shut off, or the metal was not measured

export interface NitrogenCompared {
  readonly kind: 'compared';
  readonly step: number;
  readonly from: NitrogenReading;
  readonly to: NitrogenReading;
  readonly heldS: number;
  /** Where the start pressure stands at the temperature of now, without a leak. */
  readonly expected: GaugePressure;
  /** The part of the change with temperature that the ideal gas leaves out, Pa. */
  readonly realGasPa: number;
  /** What was read, less what was expected, Pa. */
  readonly differencePa: Estimate;
  readonly verdict: NitrogenVerdict;
  readonly reservations: readonly NitrogenReservation[];
  /** Pressure lost, Pa/s; never below zero. */
  readonly lossPaPerS: Estimate;
  /** The least loss that this test could have told from none, Pa/s. */
  readonly leastSeenPaPerS: number;
  /** From where on a loss counts. */
  readonly countsFromPaPerS: number;
  /** The same two as a flow, Pa·m³/s at the test's pressure and temperature; null without a volume. */
  readonly lossPaM3PerS: Estimate | null;
  readonly leastSeenPaM3PerS: number | null;
  /** How much longer until it is decided, if nothing changes; null where it is. */
  readonly moreS: number | null;
}

export type NitrogenStepTested =
  | NitrogenCompared
  /** Filled, and nothing read since: wait for the temperature. */
  | { readonly kind: 'settling'; readonly step: number; readonly untilMs: number }
  /** The start was read, and nothing since. */
  | { readonly kind: 'begun'; readonly step: number; readonly from: NitrogenReading };

interface TestedSystem {
  /** A steady inflow into a vacuum counts as a leak from here on, Pa/s. */
  readonly leakLimitPaPerS: number;
  readonly volumeM3: number | null;
  /** Of the site: the air's pressure follows from it where nobody read that. */
  readonly altitudeM: number | null;
}

/** Each of the pressures, the first one first. @param readings in any order */
export function nitrogenTest(
  readings: readonly NitrogenReading[],
  gauge: NitrogenGauge,
  system: TestedSystem,
): NitrogenStepTested[] {
  const steps = [...new Set(readings.map(({ step }) => step))].sort((a, b) => a - b);
  return steps.map((step) => {
    const own = readings.filter((one) => one.step === step).sort((a, b) => a.atMs - b.atMs);
    const filledMs = own.findLast(({ justFilled }) => justFilled)?.atMs ?? null;
    // What was filled anew begins anew.
    const settled = own.filter(({ atMs, justFilled }) => !justFilled && atMs > (filledMs ?? -1));
    const [from] = settled;
    if (from === undefined) {
      return { kind: 'settling', step, untilMs: (filledMs ?? 0) + SETTLES_S * 1000 };
    }
    const waitedS = filledMs === null ? Infinity : (from.atMs - filledMs) / 1000;
    const held = settled.filter(({ atMs }, at) => at === 0 || atMs > from.atMs);
    const tested = onTheWay(held, { step, gauge, system, hasSettled: waitedS >= SETTLES_S });
    return tested ?? { kind: 'begun', step, from };
  });
}

/**
 * What was read latest has shown, whichever of the pressures in turn that was.
 * @returns null where there is nothing yet to compare it with: what held before was another test
 */
export function lastNitrogenTest(
  readings: readonly NitrogenReading[],
  gauge: NitrogenGauge,
  system: TestedSystem,
): NitrogenCompared | null {
  const latest = readings.reduce<NitrogenReading | null>(
    (last, one) => (one.atMs >= (last?.atMs ?? 0) ? one : last),
    null,
  );
  const tested = nitrogenTest(readings, gauge, system).find(({ step }) => step === latest?.step);
  return tested?.kind === 'compared' ? tested : null;
}

/**
 * Each of the readings with the start: what was lost on the way was lost, whatever has been filled in since.
 * @returns null where the start is the only one
 */
function onTheWay(
  readings: readonly NitrogenReading[],
  step: Omit<Pair, 'from' | 'to'>,
): NitrogenCompared | null {
  const [from, ...later] = readings;
  if (from === undefined) return null;
  const told = later.map((to) => compared({ ...step, from, to }));
  const latest = told.at(-1);
  if (latest === undefined) return null;
  // Which of them stand higher than the one before by more than temperature explains.
  const risen = later.map((to, at) => {
    const before = readings[at];
    if (before === undefined || before.atMs === to.atMs) return false;
    return hasRisen(compared({ ...step, from: before, to }));
  });
  const lostAt = told.findIndex(({ verdict }) => verdict === 'leaks');
  if (lostAt >= 0) {
    const loss = told.findLast(({ verdict }) => verdict === 'leaks') ?? latest;
    const isBack = latest.verdict === 'holds' || latest.verdict === 'undecided';
    const isFilled = isBack || risen.some((is, at) => is && at > lostAt);
    return isFilled ? { ...loss, reservations: ['filled_again'] } : loss;
  }
  const isFed = told.some(hasRisen) || risen.includes(true);
  return isFed && latest.verdict !== 'not_settled'
    ? { ...latest, verdict: 'undecided', reservations: ['risen'], moreS: null }
    : latest;
}

function hasRisen({ reservations }: NitrogenCompared): boolean {
  return reservations.includes('risen');
}

interface Pair {
  readonly step: number;
  readonly from: NitrogenReading;
  readonly to: NitrogenReading;
  readonly gauge: NitrogenGauge;
  readonly system: TestedSystem;
  readonly hasSettled: boolean;
}

function compared({ step, from, to, gauge, system, hasSettled }: Pair): NitrogenCompared {
  const ambientPa = gauge.ambientPa ?? atmosphereAtHeightPa(system.altitudeM ?? 0);
  const [start, now] = [stateOf(from, ambientPa), stateOf(to, ambientPa)];
  const heldS = (to.atMs - from.atMs) / 1000;
  const [fromK, toK] = [kelvinOf(start), kelvinOf(now)];
  const expectedPa = nitrogenPa(start.absolutePa, fromK, toK);
  const lostPa = expectedPa - now.absolutePa;
  const sigmaPa = nitrogenSigmaPa(start, now, heldS, gauge);
  const countsFromPaPerS = (system.leakLimitPaPerS * start.absolutePa) / ambientPa;
  const told = verdictOf({
    lostPa,
    sigmaPa,
    heldS,
    countsFromPaPerS,
    hasSettled,
    startPa: start.absolutePa,
    isTooLittle: start.gaugePa < LEAST_TESTED_PA,
    apartK: Math.abs(toK - fromK),
    // Gas that has not followed at all stands where it stood.
    mostExplainedPa: Math.max(expectedPa - start.absolutePa, 0),
    isMeasured: from.temperatureC !== null && to.temperatureC !== null,
  });
  const differencePa = normalOf(-lostPa, sigmaPa);
  const lossPaPerS = {
    estimate: Math.max(lostPa, 0) / heldS,
    low: Math.max(lostPa - Z90 * sigmaPa, 0) / heldS,
    high: Math.max(lostPa + Z90 * sigmaPa, 0) / heldS,
  };
  const leastSeenPaPerS = (Z_LEAKS * sigmaPa) / heldS;
  const { volumeM3 } = system;
  return {
    kind: 'compared',
    step,
    from,
    to,
    heldS,
    expected: gaugeFromAbsolute({ kind: 'absolute', absolutePa: expectedPa }, ambientPa),
    realGasPa: expectedPa - idealPa(start.absolutePa, fromK, toK),
    differencePa,
    ...told,
    lossPaPerS,
    leastSeenPaPerS,
    countsFromPaPerS,
    lossPaM3PerS: volumeM3 === null ? null : scaled(lossPaPerS, volumeM3),
    leastSeenPaM3PerS: volumeM3 === null ? null : leastSeenPaPerS * volumeM3,
  };
}

interface Weighed {
  readonly lostPa: number;
  readonly sigmaPa: number;
  readonly heldS: number;
  readonly countsFromPaPerS: number;
  readonly hasSettled: boolean;
  readonly apartK: number;
  readonly startPa: number;
  readonly isTooLittle: boolean;
  readonly mostExplainedPa: number;
  readonly isMeasured: boolean;
}

type Told = Pick<NitrogenCompared, 'verdict' | 'reservations' | 'moreS'>;

/**
 * From where a loss counts: into a vacuum a leak lets in what sound lets through, and under pressure it lets out at
 * least as many times more as the pressure is higher than the air's (through a long fine crack the square of that).
 */
function verdictOf(seen: Weighed): Told {
  const { lostPa, sigmaPa, heldS, countsFromPaPerS, hasSettled, apartK, isMeasured } = seen;
  const tooApart = apartK > MOST_APART_K;
  const surePa =
    Z_LEAKS * sigmaPa +
    (tooApart ? seen.mostExplainedPa : 0) +
    (hasSettled ? 0 : FILLING_SHARE * seen.startPa);
  if (lostPa > surePa) return { verdict: 'leaks', reservations: [], moreS: null };
  const settling: NitrogenReservation[] = [
    ...(hasSettled ? [] : (['just_filled'] as const)),
    ...(tooApart ? (['temperatures_apart'] as const) : []),
  ];
  if (settling.length > 0) return { verdict: 'not_settled', reservations: settling, moreS: null };
  if (-lostPa > Z_LEAKS * sigmaPa) {
    return { verdict: 'undecided', reservations: ['risen'], moreS: null };
  }
  if (seen.isTooLittle) {
    return { verdict: 'undecided', reservations: ['too_little'], moreS: null };
  }
  const mostPaPerS = (lostPa + Z_HOLDS * sigmaPa) / heldS;
  if (mostPaPerS <= countsFromPaPerS && isMeasured && heldS >= SETTLES_S) {
    return { verdict: 'holds', reservations: [], moreS: null };
  }
  const unknown = isMeasured ? [] : (['temperature_unknown'] as const);
  // Either it goes on losing as it has and that comes out of the errors, or nothing does.
  const leaksAfterS = lostPa > 0 ? (Z_LEAKS * sigmaPa * heldS) / lostPa : Infinity;
  const holdsAfterS = Math.max((Z_HOLDS * sigmaPa) / countsFromPaPerS, SETTLES_S);
  return {
    verdict: 'undecided',
    reservations: [...unknown, 'too_soon'],
    moreS: Math.max(Math.min(leaksAfterS, holdsAfterS) - heldS, SETTLES_S / 3),
  };
}

function stateOf({ pressure, temperatureC }: NitrogenReading, ambientPa: number): TestedState {
  const { absolutePa } = absoluteFromGauge(pressure, ambientPa);
  return { gaugePa: pressure.gaugePa, absolutePa, temperatureC };
}

function normalOf(mean: number, sigma: number): Estimate {
  return { estimate: mean, low: mean - Z90 * sigma, high: mean + Z90 * sigma };
}

function scaled({ estimate, low, high }: Estimate, factor: number): Estimate {
  return { estimate: estimate * factor, low: low * factor, high: high * factor };
}
