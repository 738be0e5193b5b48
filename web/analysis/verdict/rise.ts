/** The hold: what has risen since isolation, why, and what may be said of it. */
import type { Sheet } from '../../../protocol/sheet.ts';
import type { CurvePoint, Estimate, Rise } from '../conclusions.ts';
import { leakRatePaM3PerS } from '../flows/leak-rate.ts';
import type { History } from '../readings/history.ts';
import { JUDGING_GRID_S } from '../readings/judging-grid.ts';
import type { Sample } from '../readings/samples.ts';
import { fittedHold, type FittedHold, type HoldSpan } from '../rise/hold-fit.ts';
import type { LeakTold } from '../rise/leak-told.ts';
import type { RiseFit } from '../rise/rise-fit.ts';
import type { RisePoint } from '../rise/rise-points.ts';
import { evenedAfterS, hasGap, isFalling } from '../rise/rise-signs.ts';
import { judgedBefore } from './past-holds.ts';
import { steadied } from './steady-verdict.ts';
import { judgeRise, type Judgement, seesSystem } from './verdict.ts';

/** Points of the fitted curve that a screen draws. */
const CURVE_POINTS = 48;
/** 80 % band from a 90 % one: 1.2816/1.6449. */
const BAND_SHARE = 0.779;
/** A changeover is looked for up to so many lengths of the hold. */
const CHANGEOVER_HOLDS = 4;
/** A leak below this part of the limit is none that boil-off could give way to. */
const NO_LEAK_SHARE = 0.2;

/**
 * A step (trapped air let go) starts the hold anew: from there its curve, its start and its end count.
 * @param nowS readings after it change nothing
 * @param earlier what other holds of the same system tell of its inflow
 */
export function assessRise(
  history: History,
  hold: HoldSpan,
  sheet: Sheet,
  nowS: number,
  earlier: readonly LeakTold[] = [],
): Rise {
  const { isolatedS } = hold;
  const fitted = fittedHold(history, hold, sheet, nowS, earlier);
  const { fit, all, points, steps, startS } = fitted;
  const present = judgementOf(fitted, hold, sheet, nowS);
  const looks = function* () {
    for (const atS of looksUntil(hold, nowS)) {
      yield judgedBefore(history, { hold, sheet, untilS: atS, earlier }, () =>
        atS === nowS
          ? present
          : judgementOf(fittedHold(history, hold, sheet, atS, earlier), hold, sheet, atS),
      );
    }
  };
  const judgement = steadied(present, looks());
  const leakPaPerS = fit?.leakPaPerS ?? unknownLeak(sheet);
  const endS = startS + sheet.holdS;
  return {
    sinceS: isolatedS,
    heldS: Math.max(nowS - isolatedS, 0),
    ...judgement,
    leakPaPerS,
    earlierHolds: fit?.posterior.agreeing ?? 0,
    moisturePa: fit?.moisturePa ?? { estimate: 0, low: 0, high: sheet.endLimitPa },
    changeoverS: fit ? changeoverS(fit, sheet) : null,
    endOfHold: {
      atS: endS - isolatedS,
      ...(fit?.endPa ?? unknownEnd(all, sheet)),
    },
    leakRatePaM3PerS: systemLeakRate(leakPaPerS, sheet),
    evenedPa:
      fit && steps.length === 0 ? fit.startPa - (points[0]?.pressurePa ?? fit.startPa) : null,
    steps: steps.map(({ fromS, toS, sizePa }) => ({ atS: (fromS + toS) / 2, sizePa })),
    noisePa: fit?.noisePa ?? null,
    curve: fit
      ? curveOf(fit, points, isolatedS, {
          startS: startS - isolatedS,
          nowS: nowS - isolatedS,
          endS: endS - isolatedS,
        })
      : [],
  };
}

/** Held times at which an earlier word is asked for: 3 min, and from there by sixteenths. */
const FIRST_LOOK_S = 180;
const LOOK_GROWTH = 1 + 1 / 16;
/** So many are asked for at most: back to a third of the hold. */
const MOST_LOOKS = 18;

/**
 * Always the same moments of a hold, the latest first, whenever that is asked: points of the judging
 * grid, so that a page that judges as readings come has no fit to make for them.
 */
function looksUntil({ isolatedS }: HoldSpan, nowS: number): number[] {
  const looks: number[] = [];
  for (let heldS = FIRST_LOOK_S; ; heldS *= LOOK_GROWTH) {
    const atS = Math.ceil((isolatedS + heldS) / JUDGING_GRID_S) * JUDGING_GRID_S;
    if (atS > nowS) return looks.reverse().slice(0, MOST_LOOKS);
    looks.push(atS);
  }
}

function judgementOf(
  { fit, all, points, steps, startS, steepening, hiddenByTemperature }: FittedHold,
  { isolationSure }: HoldSpan,
  sheet: Sheet,
  nowS: number,
): Judgement {
  const heldS = Math.max(nowS - startS, 0);
  return judgeRise(fit, sheet, {
    heldS,
    sinceEvenS: heldS - evenedAfterS(points),
    step: steps.length > 0,
    steepening,
    hiddenByTemperature,
    falling: isFalling(points),
    gap: hasGap(points, heldS),
    isolationSure,
    pressurePa: all.at(-1)?.pressurePa ?? null,
  });
}

/** The volume is the system's: of a part the hunt knows the volume, and its figure is the only one. */
function systemLeakRate(leakPaPerS: Estimate, sheet: Sheet): Estimate | null {
  if (sheet.volumeM3 === null || !seesSystem(sheet)) return null;
  return leakRatePaM3PerS(leakPaPerS, sheet.volumeM3);
}

/** Before anything is known: none, or many times the limit. */
function unknownLeak({ leakLimitPaPerS }: Sheet): Estimate {
  return { estimate: leakLimitPaPerS, low: 0, high: 100 * leakLimitPaPerS };
}

function unknownEnd(samples: readonly Sample[], sheet: Sheet): Estimate {
  const presentPa = samples.at(-1)?.pressurePa ?? sheet.isolateAtPa;
  const highPa = presentPa + 100 * sheet.leakLimitPaPerS * sheet.holdS;
  return { estimate: presentPa, low: presentPa * 0.8, high: highPa };
}

/** Where what levels off comes to rise more slowly than the leak: by halving, on a falling rate. */
function changeoverS(fit: RiseFit, { leakLimitPaPerS, holdS }: Sheet): number | null {
  const leak = fit.leakPaPerS.estimate;
  const excessAt = (heldS: number) => fit.levellingRateAt(heldS) - leak;
  let early = 0;
  let late = CHANGEOVER_HOLDS * holdS;
  if (leak < NO_LEAK_SHARE * leakLimitPaPerS || excessAt(early) <= 0 || excessAt(late) > 0) {
    return null;
  }
  for (let step = 0; step < 40; step += 1) {
    const middle = (early + late) / 2;
    if (excessAt(middle) > 0) early = middle;
    else late = middle;
  }
  return late;
}

/** Where the fit lies further from the readings than this part of the pressure, it isn't drawn. */
const AS_SEEN = 0.02;

/** All of the time since isolation, s. */
interface Drawn {
  /** The hold began anew there, or at isolation. */
  readonly startS: number;
  readonly nowS: number;
  readonly endS: number;
}

/**
 * What evened out at first is not part of it: it begins where it goes along with the readings, in the
 * first half of them. From the last reading on it goes to where the hold is said to end, the middle of what
 * may come and not its mean, and its band opens to that of the end.
 */
function curveOf(
  fit: RiseFit,
  points: readonly RisePoint[],
  isolatedS: number,
  { startS, nowS, endS }: Drawn,
): CurvePoint[] {
  const endPa = fit.pressureAt(endS);
  const apart = points.findLast(({ heldS, pressurePa }) => {
    const offPa = Math.abs(fit.pressureAt(heldS) - pressurePa);
    return heldS < (startS + nowS) / 2 && offPa > AS_SEEN * pressurePa;
  });
  const fromS = Math.max(apart?.heldS ?? 0, startS);
  const lengthS = Math.max(nowS, endS) - fromS;
  return Array.from({ length: CURVE_POINTS + 1 }, (_, i) => {
    const sinceS = fromS + (lengthS * i) / CURVE_POINTS;
    const ahead = endS > nowS ? Math.max((sinceS - nowS) / (endS - nowS), 0) : 0;
    const { low, estimate, high } = fit.endPa;
    const midPa = Math.max(fit.pressureAt(sinceS) + (estimate - endPa) * ahead, 0);
    return {
      elapsedS: isolatedS + sinceS,
      lowPa: Math.max(midPa - Math.max(estimate - low, 0) * BAND_SHARE * ahead, 0),
      midPa,
      highPa: midPa + Math.max(high - estimate, 0) * BAND_SHARE * ahead,
    };
  });
}
