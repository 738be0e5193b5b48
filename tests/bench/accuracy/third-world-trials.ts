/** Cases of the third world as trials. */
import { micronFromPa } from '../../../protocol/units.ts';
import { mark } from '../../support/second-world/mark.ts';
import type { Gauge } from '../../support/third-world/gauge.ts';
import { PUMP_ON_S } from '../../support/third-world/played.ts';
import { pullDownCase } from '../../support/third-world/pull-down-case.ts';
import { repeatCase } from '../../support/third-world/repeat-case.ts';
import type { Rig } from '../../support/third-world/rig.ts';
import { HELD_S, riseCase } from '../../support/third-world/rise-case.ts';
import type { PullDownTrial, RepeatTrial, RiseTrial, World } from './trials.ts';

function pullDown(seed: number): PullDownTrial {
  const { isField, wet, rig, gauge, points, reachedS, endS } = pullDownCase(seed);
  return {
    world: 'third',
    seed,
    wet,
    points,
    marks: [mark(1, 'pump_on', PUMP_ON_S)],
    pumpOnS: PUMP_ON_S,
    reachedS,
    endS,
    facts: {
      obstacle: wet ? 'water' : isField ? 'field' : 'laboratory',
      ...facts(isField, rig, gauge),
    },
  };
}

/** Its record begins at 0, wherever the rig's own time does. */
function rise(seed: number): RiseTrial {
  const found = riseCase(seed);
  const { kind, isField, rig, gauge, fromS, pumpOnS, leakPaPerS, rosePa, shownAt } = found;
  const isolatedS = found.isolatedS - fromS;
  const isolated = mark(2, 'isolated', isolatedS);
  return {
    world: 'third',
    seed,
    kind,
    points: found.points.map((point) => ({
      ...point,
      elapsedS: Math.max(
        0,
        point.elapsedS - (gauge.sampling.wholeSeconds ? Math.floor(fromS) : fromS),
      ),
    })),
    marks: pumpOnS === null ? [isolated] : [mark(1, 'pump_on', pumpOnS), isolated],
    isolatedS,
    heldS: HELD_S,
    leakPaPerS,
    shownAt: (elapsedS) => shownAt(elapsedS + fromS),
    facts: {
      rose15Micron: micronFromPa(rosePa),
      isLate: pumpOnS === null,
      ...facts(isField, rig, gauge),
    },
  };
}

function repeat(seed: number): RepeatTrial {
  const { isField, rig, gauge, points, holds, leakPaPerS } = repeatCase(seed);
  const [first, second] = holds;
  const marks = [
    mark(1, 'pump_on', PUMP_ON_S),
    mark(2, 'isolated', first.isolatedS),
    mark(3, 'reopened', first.reopenedS),
    mark(4, 'isolated', second.isolatedS),
  ];
  return {
    world: 'third',
    seed,
    points,
    marks,
    holds,
    leakPaPerS,
    facts: facts(isField, rig, gauge),
  };
}

export const THIRD_WORLD: World = { name: 'third', pullDown, rise, repeat };

function facts(isField: boolean, rig: Rig, gauge: Gauge) {
  const { sampling, steps } = gauge;
  return {
    family: isField ? 'field' : 'laboratory',
    volumeL: 1e3 * rig.volumeM3,
    pumpLPerS: 1e3 * rig.pump.speedM3PerS,
    ultimatePa: rig.pump.ultimatePa,
    pocketsMl: rig.pockets.map(({ volumeM3 }) => (1e6 * volumeM3).toPrecision(2)).join(' '),
    placesL: rig.places.reduce((sum, { capacityM3 }) => sum + 1e3 * capacityM3, 0),
    waterKg: rig.pool?.waterKg ?? 0,
    outgassingAtHourPaPerS: rig.outgassing(3600) / rig.volumeM3,
    startC: rig.surroundings.wallC(0),
    ratePerS: sampling.ratePerS,
    wholeSeconds: sampling.wholeSeconds,
    silences: sampling.silencesS.length,
    lostShare: sampling.lostShare,
    lagS: gauge.lagS,
    noisePa: gauge.noisePa,
    noiseShare: gauge.noiseShare,
    noiseLagS: gauge.noiseLagS,
    zeroPaPerK: gauge.zeroPaPerK,
    zeroPaPerHour: gauge.zeroPaPerHour,
    glitchShare: gauge.glitchShare,
    steps: steps.kind,
    stepPa: steps.kind === 'even' ? steps.stepPa : null,
    hasThermometer: gauge.hasThermometer,
  };
}
