/** Cases of the second world as trials. */
import { pullDownCase } from '../../support/second-world/pull-down-case.ts';
import { riseCase } from '../../support/second-world/rise-case.ts';
import { micronFromPa } from '../../../protocol/units.ts';
import type { PullDownTrial, RiseTrial } from './trials.ts';
import type { Rig } from '../../support/second-world/rig.ts';
import type { Sensor } from '../../support/second-world/sensor.ts';

export function secondPullDown(seed: number): PullDownTrial {
  const { rig, sensor, obstacle, ...found } = pullDownCase(seed);
  return {
    world: 'second',
    ...found,
    facts: { obstacle, waterKg: rig.pool?.waterKg ?? 0, ...facts(rig, sensor) },
  };
}

export function secondRise(seed: number): RiseTrial {
  const { rig, sensor, step, rosePa, ...found } = riseCase(seed);
  return {
    world: 'second',
    ...found,
    heldS: 1800,
    facts: {
      rose15Micron: micronFromPa(rosePa),
      stepAtS: step?.atS ?? null,
      stepPa: step?.risePa ?? null,
      tausS: rig.stores.map(({ tausS }) => (tausS.length > 1 ? 'broad' : tausS.join())).join(' '),
      ...facts(rig, sensor),
    },
  };
}

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
