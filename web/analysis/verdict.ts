/** From the fitted rise to a word: what may be said, and what keeps it from being said. */
import type { Sheet } from '../../protocol/sheet.ts';
import { waterVapourPressurePa } from '../../protocol/water.ts';
import type { Reservation, Verdict } from './conclusions.ts';
import { vapourCheck } from './vapour-check.ts';
import { KINDS, LEAK_LIMITS, type Kind } from './rise-kinds.ts';
import type { RiseFit } from './rise-fit.ts';

export interface Judgement {
  readonly verdict: Verdict;
  readonly reservations: readonly Reservation[];
  readonly keepsRule: boolean | null;
  readonly moreS: number | null;
  /** The likely word while none is sure; never a pass. */
  readonly leaning: Verdict | null;
}

/** What was seen of the hold beside the fit. */
export interface Seen {
  readonly heldS: number;
  /** Since the pressure no longer falls because it evens out, s. */
  readonly sinceEvenS: number;
  readonly isolationSure: boolean;
  readonly step: boolean;
  readonly falling: boolean;
  readonly gap: boolean;
  /** A robust present pressure, or null. */
  readonly pressurePa: number | null;
}

/** Nobody passes a system on less than a quarter of its hold, however clear the curve. */
const LEAST_SHARE_TO_PASS = 1 / 4;
/** Probabilities from which on a word is said. A pass needs more: a leak above the limit as good as excluded. */
const SURE_OF_TIGHT = 0.8;
const LEAK_NOT_EXCLUDED = 0.003;
const PASSED_SHARE_OF_LIMIT = 0.75;
/** To say one of moisture or leak, and which of the two words that name a leak. */
interface Bar {
  readonly moisture: number;
  readonly leak: number;
  readonly whichLeak: number;
}
const SURE: Bar = { moisture: 0.9, leak: 0.93, whichLeak: 0.7 };
/** A word is said once it has been as likely as this a little earlier: it shall not come and go. */
const LIKELY: Bar = { moisture: 0.85, leak: 0.88, whichLeak: 0.6 };
/** A rise about as large as is allowed, without a leak, counts half as moisture. */
const SOME_COUNTS = 0.5;
/** Nor calls a leak within two minutes: the first minutes of every hold are steep. */
const LEAST_S_TO_CALL = 120;
/**
 * Ice hides while its vapour pressure is not well above the limit: it then lifts the pressure by
 * too little to show. Factor three: three quarters of the way to balance within the hold would
 * still be over twice the limit.
 */
const ICE_MARGIN = 3;
/** The uncertainty of a slope falls about as the time to the power of 1.5. */
const NARROWING_POWER = 1.5;
/** The shortest wait worth naming, and the longest in lengths of the hold: a repeat hold takes as long. */
const LEAST_MORE_S = 30;
const MOST_MORE_HOLDS = 1;

/** @param fit null where there are too few readings for any */
export function judgeRise(fit: RiseFit | null, sheet: Sheet, seen: Seen): Judgement {
  const { heldS } = seen;
  const toGoS = Math.max(sheet.holdS - heldS, LEAST_MORE_S);
  if (!seesSystem(sheet)) return undecided(['not_the_system'], keeps(fit, sheet), null);
  if (!fit) return undecided([seen.gap ? 'gap' : 'too_early'], null, toGoS);
  const keepsRule = keeps(fit, sheet);
  if (seen.falling) return undecided(['falling'], keepsRule, null);

  const also: Reservation[] = [];
  if (seen.step) also.push('step');
  if (seen.gap) also.push('gap');
  if (heldS < LEAST_S_TO_CALL) return undecided(['too_early', ...also], keepsRule, toGoS);

  const leastS = sheet.holdS * LEAST_SHARE_TO_PASS;
  const say = (verdict: Verdict): Judgement => ({
    verdict,
    reservations: also,
    keepsRule,
    moreS: null,
    leaning: null,
  });
  if (
    shareOf(fit, 'tight_dry') > SURE_OF_TIGHT &&
    fit.posterior.leakAbove(sheet.leakLimitPaPerS) < LEAK_NOT_EXCLUDED &&
    fit.leakPaPerS.high < PASSED_SHARE_OF_LIMIT * sheet.leakLimitPaPerS &&
    keepsRule === true &&
    !seen.gap &&
    heldS >= leastS
  ) {
    if (!seen.isolationSure) return undecided(['isolation_unsure', ...also], keepsRule, toGoS);
    if (seen.sinceEvenS < leastS) {
      return undecided(['evening_out', ...also], keepsRule, Math.round(leastS - seen.sinceEvenS));
    }
    if (iceMayHide(sheet)) return undecided(['ice_possible', ...also], keepsRule, null);
    return say('tight_dry');
  }
  const notWaterAlone = isMoreThanWater(sheet, seen.pressurePa);
  const wordBy = (bar: Bar): Verdict | null => {
    const word = wordOf(fit, sheet, keepsRule, bar);
    return word === 'moisture' && notWaterAlone ? null : word;
  };
  const word = wordBy(SURE);
  if (word !== null) return say(word);
  if (notWaterAlone && wordOf(fit, sheet, keepsRule, SURE) === 'moisture') {
    also.push('not_water_alone');
  }
  const reason = heldS < sheet.holdS ? 'too_early' : 'between_limits';
  const moreS = heldS < sheet.holdS ? toGoS : waitFor(fit, sheet, heldS);
  return { ...undecided([reason, ...also], keepsRule, moreS), leaning: wordBy(LIKELY) };
}

function shareOf(fit: RiseFit, kind: Kind): number {
  return fit.posterior.kinds[KINDS.indexOf(kind)] ?? 0;
}

/** What is wrong with the system, where that is likely enough. */
function wordOf(fit: RiseFit, sheet: Sheet, keepsRule: boolean | null, bar: Bar): Verdict | null {
  const moist = shareOf(fit, 'moisture') + SOME_COUNTS * shareOf(fit, 'some_moisture');
  const leak = shareOf(fit, 'leak') + shareOf(fit, 'small_leak');
  const both = shareOf(fit, 'leak_and_moisture');
  if (moist > bar.moisture && keepsRule === false) {
    // A leak that would be called one by itself is named, however small a part of the rise it is.
    const isNamed = fit.leakPaPerS.low > LEAK_LIMITS * sheet.leakLimitPaPerS;
    return isNamed ? 'leak_and_moisture' : 'moisture';
  }
  if (leak + both > bar.leak && Math.max(leak, both) > bar.whichLeak) {
    return leak > both ? 'leak' : 'leak_and_moisture';
  }
  return null;
}

function undecided(
  reservations: readonly Reservation[],
  keepsRule: boolean | null,
  moreS: number | null,
): Judgement {
  return { verdict: 'undecided', reservations, keepsRule, moreS, leaning: null };
}

function seesSystem({ sensorSees }: Sheet): boolean {
  return sensorSees === 'system' || sensorSees === 'unknown';
}

/** The pass rule: below the limit at the end, and risen by no more than is allowed. */
function keeps(fit: RiseFit | null, { endLimitPa, allowedRisePa }: Sheet): boolean | null {
  if (!fit) return null;
  const limitPa = Math.min(endLimitPa, fit.startPa + allowedRisePa);
  if (fit.endPa.high <= limitPa) return true;
  return fit.endPa.low > limitPa ? false : null;
}

function iceMayHide({ coldestTemperatureC, endLimitPa }: Sheet): boolean {
  return (
    coldestTemperatureC !== null &&
    waterVapourPressurePa(coldestTemperatureC) < ICE_MARGIN * endLimitPa
  );
}

function isMoreThanWater({ metalTemperatureC }: Sheet, pressurePa: number | null): boolean {
  return (
    metalTemperatureC !== null &&
    pressurePa !== null &&
    vapourCheck(metalTemperatureC, pressurePa).outcome === 'above'
  );
}

/** How long until the leak's interval no longer straddles its limit, were it to narrow as usual. */
function waitFor({ leakPaPerS: leak }: RiseFit, sheet: Sheet, heldS: number): number | null {
  const limit = sheet.leakLimitPaPerS;
  const wrongSide = leak.estimate > limit ? leak.estimate - leak.low : leak.high - leak.estimate;
  const distance = Math.abs(leak.estimate - limit);
  const factor = distance > 0 ? (wrongSide / distance) ** (1 / NARROWING_POWER) : Infinity;
  const moreS = Math.max((factor - 1) * heldS, LEAST_MORE_S);
  if (moreS > MOST_MORE_HOLDS * sheet.holdS) {
    return heldS < sheet.holdS ? Math.max(sheet.holdS - heldS, LEAST_MORE_S) : null;
  }
  return Math.round(moreS);
}
