/** From the fitted rise to a word: what may be said of it, and with which reservations. */
import type { Sheet } from '../../../protocol/sheet.ts';
import type { Verdict } from '../../../protocol/verdicts.ts';
import type { Reservation } from '../conclusions.ts';
import { vapourCheck } from '../flows/vapour-check.ts';
import type { RiseFit } from '../rise/rise-fit.ts';
import { LEAK_LIMITS, shareOf } from '../rise/rise-kinds.ts';
import { mayPass, passWithheld, type Seen, type Withheld } from './pass-withheld.ts';
import { KEPT, SAID, type Bar } from './verdict-bars.ts';

export interface Judgement {
  readonly verdict: Verdict;
  readonly reservations: readonly Reservation[];
  readonly keepsRule: boolean | null;
  readonly moreS: number | null;
  /** The word that would be kept, had it been said before; null where it would be taken back. */
  readonly leaning: Verdict | null;
}

/** A rise about as large as is allowed, without a leak, counts half as moisture. */
const SOME_COUNTS = 0.5;
/**
 * From this part of a leak's probability on, moisture besides is named as open. On training curves of leaks, with
 * moisture or without, 'leak' alone was right of 93 to 95 in a hundred with less of it (97 and 98 in the second world),
 * and of 40 to 49 (84 to 87) with more.
 */
const MOIST_TOO = 0.03;
/** Nobody calls a leak within three minutes: the first minutes of every hold are steep. */
const LEAST_S_TO_CALL = 180;
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
  if (said.word !== null) {
    const reservations = mayBeMoistToo(said.word, fit)
      ? [...also, 'moisture_besides' as const]
      : also;
    return { ...held, verdict: said.word, reservations, moreS: null };
  }
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
  readonly withheld: Withheld | null;
  /** It would be moisture, but stands above the vapour pressure. */
  readonly notWaterAlone: boolean;
}

const NO_WORD: Word = { word: null, withheld: null, notWaterAlone: false };

function wordBy(bar: Bar, fit: RiseFit, sheet: Sheet, keepsRule: boolean | null, seen: Seen): Word {
  if (mayPass(bar, fit, sheet, keepsRule, seen)) {
    const withheld = passWithheld(bar, fit, sheet, seen);
    return withheld ? { ...NO_WORD, withheld } : { ...NO_WORD, word: 'tight_dry' };
  }
  const word = wrongBy(bar, fit, sheet, keepsRule, seen);
  const notWaterAlone = word === 'moisture' && isMoreThanWater(sheet, seen.pressurePa);
  return { ...NO_WORD, word: notWaterAlone ? null : word, notWaterAlone };
}

/** What is wrong with the system, where that is likely enough. */
function wrongBy(
  bar: Bar,
  fit: RiseFit,
  sheet: Sheet,
  keepsRule: boolean | null,
  { heldS }: Seen,
): Verdict | null {
  const { kinds } = fit.posterior;
  const moist = shareOf(kinds, 'moisture') + SOME_COUNTS * shareOf(kinds, 'some_moisture');
  const leak = shareOf(kinds, 'leak') + shareOf(kinds, 'small_leak');
  const both = shareOf(kinds, 'leak_and_moisture');
  if (moist > bar.moisture && keepsRule === false) {
    // A leak that would be called one by itself is named, however small a part of the rise it is.
    const isNamed = fit.leakPaPerS.low > LEAK_LIMITS * sheet.leakLimitPaPerS;
    return isNamed ? 'leak_and_moisture' : 'moisture';
  }
  // Once the hold is over, a sure leak is named by the likelier of its words.
  const whichLeak = heldS < sheet.holdS ? bar.whichLeak : 0;
  if (Math.max(leak, both) <= whichLeak) return null;
  if (leak > both) return leak + both > bar.leak ? 'leak' : null;
  return leak + both > bar.leakAndMoisture ? 'leak_and_moisture' : null;
}

/** Whether what is called a leak may well be moisture in part: one hold seldom tells. */
function mayBeMoistToo(word: Verdict, { posterior: { kinds } }: RiseFit): boolean {
  const both = shareOf(kinds, 'leak_and_moisture');
  const leak = shareOf(kinds, 'leak') + shareOf(kinds, 'small_leak');
  return word === 'leak' && both > MOIST_TOO * (leak + both);
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
