/** Pull-downs by their seeds: every second one in the field, half of those wet. */
import { DEFAULT_SHEET } from '../../../protocol/sheet.ts';
import { logBetween, seeded } from '../invented-curves.ts';
import { fieldGauge, fieldRig } from './field.ts';
import { seen } from './gauge.ts';
import { laboratoryGauge, laboratoryRig } from './laboratory.ts';
import { played, PUMP_ON_S } from './played.ts';

const SHORTEST_S = 90;
const LONGEST_S = 3 * 3600;
/** How long those that never get there are pumped. */
const NEVER_S = 45 * 60;
/** One in so many may be of those. */
const MAY_FAIL_EVERY = 7;
const TRIES = 400;

/** Drawn anew from the same seed until one gets there, or does not where it may. */
export function pullDownCase(seed: number) {
  const random = seeded(seed * 7919 + 5);
  const mayFail = Math.floor(seed / 4) % MAY_FAIL_EVERY === 0;
  for (let i = 0; i < TRIES; i += 1) {
    const found = drawn(seed, random);
    const tookS = found.reachedS === null ? null : found.reachedS - PUMP_ON_S;
    if (tookS === null ? mayFail : !mayFail && tookS > SHORTEST_S) return found;
  }
  throw new Error(`no pull-down of the third world for seed ${seed}`);
}

function drawn(seed: number, random: () => number) {
  const isField = seed % 2 === 1;
  const wet = isField && Math.floor(seed / 2) % 2 === 1;
  const inflowPaPerS = random() < 0.3 ? logBetween(random, 0.003, 1.5) : 0;
  const wish = { inflowPaPerS, outgassingFactor: logBetween(random, 0.3, 30) };
  const rig = isField ? fieldRig(random, wish, wet) : laboratoryRig(random, wish);
  const { targetPa } = DEFAULT_SHEET;
  let belowS = 0;
  const { endsS, gasPaAt } = played(rig, [
    {
      pumping: true,
      over: (inPhaseS, gaugePa) => {
        if (gaugePa > 0.8 * targetPa) belowS = inPhaseS;
        return inPhaseS > LONGEST_S || inPhaseS > belowS + 60;
      },
    },
  ]);
  const toS = endsS[0] ?? 0;
  const gauge = isField ? fieldGauge(random, toS) : laboratoryGauge(random, toS);
  const { points, shownAt } = seen(gauge, random, gasPaAt, rig.surroundings.gaugeC, {
    fromS: 0,
    toS,
    valvesS: [PUMP_ON_S],
  });
  const reachedS = firstBelow(shownAt, targetPa, toS);
  return { seed, isField, wet, rig, gauge, points, reachedS, endS: endOf(reachedS, toS) };
}

function firstBelow(shownAt: (elapsedS: number) => number, targetPa: number, toS: number) {
  for (let atS = PUMP_ON_S; atS <= toS; atS += 0.5) if (shownAt(atS) <= targetPa) return atS;
  return null;
}

function endOf(reachedS: number | null, toS: number): number {
  return reachedS ?? Math.min(toS, PUMP_ON_S + NEVER_S);
}
