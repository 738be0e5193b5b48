/** Cases of the second world as trials. */
import { pullDownCase } from '../../support/second-world/pull-down-case.ts';
import { repeatHoldCase } from '../../support/second-world/repeat-hold-case.ts';
import { riseCase } from '../../support/second-world/rise-case.ts';
import { micronFromPa } from '../../../protocol/units.ts';
import type { PullDownTrial, RepeatTrial, RiseTrial, World } from './trials.ts';
import type { Rig } from '../../support/second-world/rig.ts';
import type { Sensor } from '../../support/second-world/sensor.ts';

function pullDown(seed: number): PullDownTrial {
  const { rig, sensor, obstacle, ...found } = pullDownCase(seed);
  return {
    world: 'second',
    ...found,
    facts: { obstacle, waterKg: rig.pool?.waterKg ?? 0, ...facts(rig, sensor) },
  };
}

function rise(seed: number): RiseTrial {
  const { rig, sensor, step, rosePa, eveningPa, ...found } = riseCase(seed);
  return {
    world: 'second',
    ...found,
    heldS: 1800,
    facts: {
      rose15Micron: micronFromPa(rosePa),
      eveningPa,
      stepAtS: step?.atS ?? null,
      stepPa: step?.risePa ?? null,
      poolInHold: rig.pool !== null,
      tausS: rig.stores.map(({ tausS }) => (tausS.length > 1 ? 'broad' : tausS.join())).join(' '),
      ...facts(rig, sensor),
    },
  };
}

function repeat(seed: number): RepeatTrial {
  const { once, points, marks, holds } = repeatHoldCase(seed);
  const { rig, sensor, leakPaPerS } = once;
  return { world: 'second', seed, points, marks, holds, leakPaPerS, facts: facts(rig, sensor) };
}

export const SECOND_WORLD: World = { name: 'second', pullDown, rise, repeat };

function facts(rig: Rig, sensor: Sensor) {
  const { startC, driftKPerS, swingK, swingS } = rig.surroundings;
  return {
    volumeL: 1e3 * (rig.farM3 + rig.nearM3),
    pumpLPerS: 1e3 * rig.pump.speedM3PerS,
    sensorNode: rig.sensorNode,
    startC,
    driftKPerHour: 3600 * driftKPerS,
    swingK,
    swingS,
    ratePerS: sensor.ratePerS,
    gain: sensor.gain,
    noisePa: sensor.noisePa,
    relativeNoise: sensor.relativeNoise,
    slowShare: sensor.slowShare,
    slowS: sensor.slowS,
    quantumPa: sensor.quantumPa,
    coarsePa: sensor.coarsePa,
    topPa: sensor.topPa,
    spikeShare: sensor.spikeShare,
    zeroPaPerK: sensor.zeroPaPerK,
    zeroPaPerHour: sensor.zeroPaPerHour,
  };
}
