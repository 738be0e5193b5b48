/** What learners are shown of a rise: the curve, the temperature and the judge's own numbers. */
import type { Verdict } from '../../../protocol/verdicts.ts';
import type { Estimate } from '../../../web/analysis/conclusions.ts';
import { median } from '../../../web/analysis/fitting/median.ts';
import { between, seeded } from '../../support/invented-curves.ts';
import { Subject } from './subject.ts';
import type { RiseTrial } from './trials.ts';

/** The curve, as medians over so many parts of the hold, narrow early and wide late. */
const PARTS = 14;
const WIDENING = 1.6;
/** The moment is drawn within a tenth of the one named: at a fixed one the time itself would tell. */
const ABOUT = 0.1;

export interface RiseRow {
  readonly trial: RiseTrial;
  readonly features: readonly number[];
  /** The judge's own word and its leak; null where it has none. */
  readonly verdict: Verdict;
  readonly leakPaPerS: Estimate | null;
}

/** @param minute since isolation, about */
export function riseRow(trial: RiseTrial, minute: number): RiseRow {
  const { isolatedS, points, marks, seed } = trial;
  const about = between(seeded(seed * 31 + 11 + minute), 1 - ABOUT, 1 + ABOUT);
  const heldS = Math.min(minute * 60 * about, trial.heldS);
  const { rise } = new Subject(points, marks).judge(isolatedS + heldS);
  const edge = (part: number) => isolatedS + 3 + (heldS - 3) * (part / PARTS) ** WIDENING;
  const levels = Array.from({ length: PARTS }, (_, part) => {
    const within = points.filter((p) => p.elapsedS >= edge(part) && p.elapsedS < edge(part + 1));
    return {
      pressurePa: median(within.flatMap((p) => p.pressurePa ?? [])),
      temperatureC: median(within.flatMap((p) => p.temperatureC ?? [])),
      atS: (edge(part) + edge(part + 1)) / 2,
    };
  });
  const first = levels[0];
  const last = levels.at(-1);
  if (!first || !last) throw new Error('a hold has parts');
  const rosePa = last.pressurePa - first.pressurePa;
  const slopes = levels.slice(1).map(({ pressurePa, atS }, i) => {
    const before = levels[i] ?? first;
    return (pressurePa - before.pressurePa) / (atS - before.atS);
  });
  const said = rise ? [rise.leakPaPerS, rise.moisturePa, rise.endOfHold] : [];
  return {
    trial,
    verdict: rise?.verdict ?? 'undecided',
    leakPaPerS: rise?.leakPaPerS ?? null,
    features: [
      Math.log(first.pressurePa),
      rosePa,
      last.temperatureC - first.temperatureC,
      rise?.noisePa ?? 0,
      ...slopes,
      ...slopes.map((slope) => (slope * heldS) / Math.max(Math.abs(rosePa), 1)),
      ...said.flatMap(({ estimate, low, high }) => [estimate, low, high]),
    ],
  };
}
