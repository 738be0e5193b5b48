/** One rig held twice for a quarter of an hour, pumped for ten minutes between. */
import { paFromMicron } from '../../../protocol/units.ts';
import { logBetween, seeded } from '../invented-curves.ts';
import { CLASS_HOLD_S, riseClass } from '../second-world/rise-class.ts';
import { fieldGauge, fieldRig } from './field.ts';
import { seen } from './gauge.ts';
import { laboratoryGauge, laboratoryRig } from './laboratory.ts';
import { played } from './played.ts';
import { inflowPaPerS } from './rig.ts';

const DEEP_PA = 45;
const LONGEST_PUMPING_S = 5400;
const BETWEEN_S = 600;

export function repeatCase(seed: number) {
  const random = seeded(seed * 15_485_863 + 1);
  const isField = seed % 2 === 1;
  const leaks = Math.floor(seed / 2) % 2 === 1;
  const wish = {
    inflowPaPerS: leaks ? paFromMicron(logBetween(random, 2.5, 60)) / 60 : 0,
    outgassingFactor: logBetween(random, 0.1, 60),
  };
  const rig = isField ? fieldRig(random, wish, false) : laboratoryRig(random, wish);
  const pumped = (leastS: number) => ({
    pumping: true,
    over: (inPhaseS: number, gaugePa: number) =>
      inPhaseS > LONGEST_PUMPING_S || (gaugePa < DEEP_PA && inPhaseS > leastS),
  });
  const held = { pumping: false, over: (inPhaseS: number) => inPhaseS > CLASS_HOLD_S };
  const { endsS, gasPaAt } = played(rig, [pumped(0), held, pumped(BETWEEN_S), held]);
  const [firstS = 0, reopenedS = 0, secondS = 0, toS = 0] = endsS;
  const gauge = isField ? fieldGauge(random, toS) : laboratoryGauge(random, toS);
  const { points, shownAt } = seen(gauge, random, gasPaAt, rig.surroundings.gaugeC, {
    fromS: 0,
    toS,
    valvesS: [firstS, reopenedS, secondS],
  });
  const leakPaPerS = inflowPaPerS(rig);
  const hold = (isolatedS: number) => {
    const rosePa = shownAt(isolatedS + CLASS_HOLD_S) - shownAt(isolatedS + 2 * gauge.lagS);
    return { isolatedS, kind: riseClass(leakPaPerS, rosePa) };
  };
  const holds = [{ ...hold(firstS), reopenedS }, hold(secondS)] as const;
  return { isField, rig, gauge, points, leakPaPerS, holds };
}
