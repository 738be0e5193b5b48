/** Rises by their seeds: the five classes go round, in a laboratory for twenty, in the field for twenty. */
import { paFromMicron } from '../../../protocol/units.ts';
import { between, logBetween, seeded } from '../invented-curves.ts';
import {
  CLASS_HOLD_S,
  RISE_CLASSES,
  type RiseClass,
  riseClass,
} from '../second-world/rise-class.ts';
import { fieldGauge, fieldRig } from './field.ts';
import { seen } from './gauge.ts';
import { laboratoryGauge, laboratoryRig, type Wish } from './laboratory.ts';
import { played, PUMP_ON_S } from './played.ts';
import { inflowPaPerS } from './rig.ts';

export const HELD_S = 1800;
const LONGEST_PUMPING_S = 5400;
const TRIES = 300;
const MICRON_PER_MIN = paFromMicron(1) / 60;

/** Drawn anew from the same seed until it is of the class that is its turn. */
export function riseCase(seed: number) {
  const random = seeded(seed * 104_729 + 3);
  const wanted = RISE_CLASSES[seed % RISE_CLASSES.length] ?? 'borderline';
  for (let i = 0; i < TRIES; i += 1) {
    const found = drawn(seed, random, wanted);
    if (found?.kind === wanted) return found;
  }
  throw new Error(`no rise of the third world for seed ${seed}`);
}

function wishFor(random: () => number, wanted: RiseClass): Wish {
  const low = () => logBetween(random, 0.05, 3);
  const high = () => logBetween(random, 1, 300);
  const none = () => (random() < 0.5 ? 0 : logBetween(random, 0.01, 1.5) * MICRON_PER_MIN);
  switch (wanted) {
    case 'tight_dry':
      return { inflowPaPerS: none(), outgassingFactor: low() };
    case 'moisture':
      return { inflowPaPerS: none(), outgassingFactor: high() };
    case 'leak':
      return {
        inflowPaPerS: logBetween(random, 10, 300) * MICRON_PER_MIN,
        outgassingFactor: low(),
      };
    case 'leak_and_moisture':
      return {
        inflowPaPerS: logBetween(random, 10, 60) * MICRON_PER_MIN,
        outgassingFactor: high(),
      };
    case 'borderline':
      return {
        inflowPaPerS: between(random, 2.5, 20) * MICRON_PER_MIN,
        outgassingFactor: logBetween(random, 0.05, 100),
      };
  }
}

function drawn(seed: number, random: () => number, wanted: RiseClass) {
  const isField = Math.floor(seed / 20) % 2 === 1;
  const wish = wishFor(random, wanted);
  const isWet = wish.outgassingFactor > 1 && random() < 0.25;
  const rig = isField ? fieldRig(random, wish, isWet) : laboratoryRig(random, wish);
  const valvedOffPa = isField ? between(random, 12, 60) : logBetween(random, 2.7, 60);
  const soaksS = random() < 0.5 ? between(random, 0, 120) : logBetween(random, 120, 3000);
  let deepS = Infinity;
  const { endsS, gasPaAt } = played(rig, [
    {
      pumping: true,
      over: (inPhaseS, gaugePa) => {
        if (gaugePa < valvedOffPa) deepS = Math.min(deepS, inPhaseS);
        return inPhaseS > LONGEST_PUMPING_S || inPhaseS > deepS + soaksS;
      },
    },
    { pumping: false, over: (inPhaseS) => inPhaseS > HELD_S },
  ]);
  const [isolatedS = 0, toS = 0] = endsS;
  if (!Number.isFinite(deepS)) return null;
  // Some records know nothing of the pumping.
  const isLate = random() < (isField ? 0.05 : 0.35);
  const fromS = isLate ? isolatedS - between(random, 0, 60) : 0;
  const gauge = isField ? fieldGauge(random, toS) : laboratoryGauge(random, toS);
  const { points, shownAt } = seen(gauge, random, gasPaAt, rig.surroundings.gaugeC, {
    fromS,
    toS,
    valvesS: [isolatedS],
  });
  const rosePa = shownAt(isolatedS + CLASS_HOLD_S) - shownAt(isolatedS + 2 * gauge.lagS);
  const leakPaPerS = inflowPaPerS(rig) * slopeOf(shownAt, gasPaAt, isolatedS);
  return {
    seed,
    kind: riseClass(leakPaPerS, rosePa),
    isField,
    rig,
    gauge,
    points,
    fromS,
    pumpOnS: isLate ? null : PUMP_ON_S,
    isolatedS,
    leakPaPerS,
    rosePa,
    shownAt,
  };
}

/** What the gauge makes of a pascal more, over the half hour. */
function slopeOf(
  shownAt: (elapsedS: number) => number,
  gasPaAt: (elapsedS: number) => number,
  isolatedS: number,
): number {
  const fromS = isolatedS + 30;
  const toS = isolatedS + HELD_S - 1;
  const gasPa = gasPaAt(toS) - gasPaAt(fromS);
  // Of hardly any rise zero and lag make more than the gain does.
  return gasPa < 20 ? 1 : (shownAt(toS) - shownAt(fromS)) / gasPa;
}
