/** Pull-downs by their seeds: every second one in the field, half of those wet; one in seven never gets there. */
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
/** One in so many is of those. */
const FAILS_EVERY = 7;
/** It stands still: by the end no more than so much of it has gone in this time. */
const STANDS_SHARE = 0.02;
const STANDS_FOR_S = 2400;
const TRIES = 400;

/** Drawn anew from the same seed until one gets there, or stands still above it where it is to. */
export function pullDownCase(seed: number) {
  const random = seeded(seed * 7919 + 5);
  const fails = Math.floor(seed / 4) % FAILS_EVERY === 0;
  for (let i = 0; i < TRIES; i += 1) {
    const { reachedS, standsStill, ...found } = drawn(seed, random, fails);
    const took = reachedS !== null && reachedS - PUMP_ON_S > SHORTEST_S;
    if (fails ? reachedS === null && standsStill : took) return { ...found, reachedS };
  }
  throw new Error(`no pull-down of the third world for seed ${seed}`);
}

function drawn(seed: number, random: () => number, fails: boolean) {
  const isField = seed % 2 === 1;
  const wet = isField && !fails && Math.floor(seed / 8) % 2 === 1;
  const leaks = random() < (fails ? 0.9 : 0.3);
  const inflowPaPerS = leaks ? logBetween(random, 0.003, fails ? 10 : 1.5) : 0;
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
  const standsStill = shownAt(toS) > (1 - STANDS_SHARE) * shownAt(toS - STANDS_FOR_S);
  const endS = reachedS ?? Math.min(toS, PUMP_ON_S + NEVER_S);
  return { seed, isField, wet, rig, gauge, points, reachedS, standsStill, endS };
}

function firstBelow(shownAt: (elapsedS: number) => number, targetPa: number, toS: number) {
  for (let atS = PUMP_ON_S; atS <= toS; atS += 0.5) if (shownAt(atS) <= targetPa) return atS;
  return null;
}
