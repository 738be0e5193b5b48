/** From the fitted rise to a word: what may be said, and what keeps it from being said. */
import type { Sheet } from '../../protocol/sheet.ts';
import { waterVapourPressurePa } from '../../protocol/water.ts';
import type { Verdict } from '../../protocol/verdicts.ts';
import type { Reservation } from './conclusions.ts';
import { vapourCheck } from './vapour-check.ts';
import { KINDS, LEAK_LIMITS, type Kind } from './rise-kinds.ts';
import type { RiseFit } from './rise-fit.ts';
import { mayBecomePaPerS, STEEPENS_SIGMAS, steepens, type Steepening } from './steepening.ts';

export interface Judgement {
  readonly verdict: Verdict;
  readonly reservations: readonly Reservation[];
  readonly keepsRule: boolean | null;
  readonly moreS: number | null;
  /** The word that would be kept, had it been said before; null where it would be taken back. */
  readonly leaning: Verdict | null;
}

/** What was seen of the hold beside the fit. */
export interface Seen {
  readonly heldS: number;
  /** Since the pressure no longer falls because it evens out, s. */
  readonly sinceEvenS: number;
  /** Null where too little has been seen. */
  readonly steepening: Steepening | null;
  /** Inflow that a change of the temperature could hide, Pa/s. */
  readonly hiddenByTemperaturePaPerS: number;
  readonly isolationSure: boolean;
  readonly step: boolean;
  readonly falling: boolean;
  readonly gap: boolean;
  /** A robust present pressure, or null. */
  readonly pressurePa: number | null;
}

/** Nobody passes a system on less than a quarter of its hold, however clear the curve. */
const LEAST_SHARE_TO_PASS = 1 / 4;
/** What fell at first may even out for longer than that shows: half of a hold at rest, then. */
const LEAST_SHARE_AFTER_FALL = 1 / 2;
/**
 * Probabilities for a word. A pass needs more: a leak above the limit as good as excluded, and the upper
 * end of the inflow below so large a share of it.
 */
interface Bar {
  readonly tight: number;
  readonly leakAboveLimit: number;
  readonly shareOfLimit: number;
  /** From so many of its standard errors on a rise counts as growing steeper. */
  readonly steepeningSigmas: number;
  /** Whether a growth that the readings are too coarse to show counts. */
  readonly unseenGrowth: boolean;
  /** So many times as water in balance the gas may come and go with the temperature: what walls hold clings faster. */
  readonly timesWater: number;
  /** Whether it may yet turn out that the hold doesn't keep its rule. */
  readonly ruleMayBreak: boolean;
  readonly moisture: number;
  readonly leak: number;
  /** Which of the two words that name a leak. */
  readonly whichLeak: number;
}
/** A word is said from here on … */
const SAID: Bar = {
  tight: 0.8,
  leakAboveLimit: 0.003,
  shareOfLimit: 0.73,
  steepeningSigmas: STEEPENS_SIGMAS,
  unseenGrowth: true,
  timesWater: 1.3,
  ruleMayBreak: false,
  moisture: 0.92,
  leak: 0.93,
  whichLeak: 0.7,
};
/** … and kept as far as here: it shall not come and go. Settings of ours. */
const KEPT: Bar = {
  tight: 0.5,
  leakAboveLimit: 0.02,
  shareOfLimit: 0.88,
  steepeningSigmas: 2,
  unseenGrowth: false,
  timesWater: 1.2,
  ruleMayBreak: true,
  moisture: 0.88,
  leak: 0.88,
  whichLeak: 0.6,
};
/** A rise about as large as is allowed, without a leak, counts half as moisture. */
const SOME_COUNTS = 0.5;
/** A slope that has grown by less than this part of the limit is none that grows. */
const LEAST_GROWN_SHARE = 0.1;
/** Beyond the hold's end what grows steeper, or swings with the temperature, is seen for so much longer. */
const SEEN_LONGER_SHARE = 0.5;
/** Nobody calls a leak within three minutes: the first minutes of every hold are steep. */
const LEAST_S_TO_CALL = 180;
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

  const said = wordBy(SAID, fit, sheet, keepsRule, seen);
  const leaning = wordBy(KEPT, fit, sheet, keepsRule, seen).word;
  const held: Judgement = { ...undecided(also, keepsRule, toGoS), leaning };
  if (said.word !== null) return { ...held, verdict: said.word, moreS: null };
  if (said.withheld !== null) {
    const { reason, moreS } = said.withheld;
    return { ...held, reservations: [reason, ...also], moreS: moreS === undefined ? toGoS : moreS };
  }
  const isOver = heldS >= sheet.holdS;
  const reason = isOver ? 'between_limits' : 'too_early';
  const reservations: Reservation[] = [reason, ...also];
  if (said.notWaterAlone) reservations.push('not_water_alone');
  return { ...held, reservations, moreS: isOver ? waitFor(fit, sheet, heldS) : toGoS };
}

/** A word, or a pass that is withheld for a reason, or neither. */
interface Word {
  readonly word: Verdict | null;
  /** `moreS` undefined: until the end of the hold. */
  readonly withheld: { readonly reason: Reservation; readonly moreS?: number | null } | null;
  /** It would be moisture, but stands above the vapour pressure. */
  readonly notWaterAlone: boolean;
}

const NO_WORD: Word = { word: null, withheld: null, notWaterAlone: false };

function wordBy(bar: Bar, fit: RiseFit, sheet: Sheet, keepsRule: boolean | null, seen: Seen): Word {
  const leastS = sheet.holdS * LEAST_SHARE_TO_PASS;
  const isOver = seen.heldS >= sheet.holdS;
  const limit = sheet.leakLimitPaPerS;
  // Nothing is passed because part of what goes on rising is believed to be no leak.
  const { straight } = fit.posterior;
  if (
    shareOf(fit, 'tight_dry') > bar.tight &&
    straight.leakAbove(limit) < bar.leakAboveLimit &&
    straight.leakPaPerS.high < bar.shareOfLimit * limit &&
    (keepsRule ?? bar.ruleMayBreak) &&
    !seen.gap &&
    seen.heldS >= leastS
  ) {
    if (!seen.isolationSure) return { ...NO_WORD, withheld: { reason: 'isolation_unsure' } };
    const restS = seen.sinceEvenS < seen.heldS ? sheet.holdS * LEAST_SHARE_AFTER_FALL : 0;
    if (seen.sinceEvenS < restS) {
      const moreS = Math.round(restS - seen.sinceEvenS);
      return { ...NO_WORD, withheld: { reason: 'evening_out', moreS } };
    }
    const longerS = Math.max(sheet.holdS - seen.heldS, SEEN_LONGER_SHARE * seen.heldS);
    // What a rise that grows steeper may come to opens the interval of its inflow.
    if (fit.leakPaPerS.high > limit || isSteepening(bar, seen.steepening, limit)) {
      return { ...NO_WORD, withheld: { reason: 'steepening', moreS: Math.round(longerS) } };
    }
    if (fit.leakPaPerS.high + bar.timesWater * seen.hiddenByTemperaturePaPerS > limit) {
      return { ...NO_WORD, withheld: { reason: 'temperature', moreS: Math.round(longerS) } };
    }
    if (iceMayHide(sheet)) return { ...NO_WORD, withheld: { reason: 'ice_possible', moreS: null } };
    if (bar.unseenGrowth && mayGrowUnseen(seen.steepening, limit, isOver)) {
      return { ...NO_WORD, withheld: { reason: isOver ? 'between_limits' : 'too_early' } };
    }
    return { ...NO_WORD, word: 'tight_dry' };
  }
  const word = wrongBy(bar, fit, sheet, keepsRule, seen);
  const notWaterAlone = word === 'moisture' && isMoreThanWater(sheet, seen.pressurePa);
  return { ...NO_WORD, word: notWaterAlone ? null : word, notWaterAlone };
}

function shareOf(fit: RiseFit, kind: Kind): number {
  return fit.posterior.kinds[KINDS.indexOf(kind)] ?? 0;
}

/** Were it to go on growing it might come near the limit: what it hides may be a leak. */
function isSteepening(bar: Bar, steepening: Steepening | null, limitPaPerS: number): boolean {
  if (steepening === null) return false;
  return (
    steepening.grownPaPerS > LEAST_GROWN_SHARE * limitPaPerS &&
    steepens(steepening, bar.steepeningSigmas) &&
    mayBecomePaPerS(steepening) > bar.shareOfLimit * limitPaPerS
  );
}

/**
 * Whether a growth that these readings can't tell from none could come to a leak above the limit: with a coarse
 * display, or in the first minutes, all that can be said is that none was seen. Of a few readings typed in by hand
 * nothing can be told of it: a whole hold has to do.
 */
function mayGrowUnseen(
  steepening: Steepening | null,
  limitPaPerS: number,
  isOver: boolean,
): boolean {
  return steepening === null ? !isOver : mayBecomePaPerS(steepening) > limitPaPerS;
}

/** What is wrong with the system, where that is likely enough. */
function wrongBy(
  bar: Bar,
  fit: RiseFit,
  sheet: Sheet,
  keepsRule: boolean | null,
  { heldS }: Seen,
): Verdict | null {
  const moist = shareOf(fit, 'moisture') + SOME_COUNTS * shareOf(fit, 'some_moisture');
  const leak = shareOf(fit, 'leak') + shareOf(fit, 'small_leak');
  const both = shareOf(fit, 'leak_and_moisture');
  if (moist > bar.moisture && keepsRule === false) {
    // A leak that would be called one by itself is named, however small a part of the rise it is.
    const isNamed = fit.leakPaPerS.low > LEAK_LIMITS * sheet.leakLimitPaPerS;
    return isNamed ? 'leak_and_moisture' : 'moisture';
  }
  // Once the hold is over, a sure leak is named by the likelier of its words.
  const whichLeak = heldS < sheet.holdS ? bar.whichLeak : 0;
  if (leak + both > bar.leak && Math.max(leak, both) > whichLeak) {
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

export function seesSystem({ sensorSees }: Sheet): boolean {
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
