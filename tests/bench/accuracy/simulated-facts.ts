/** What a simulated case was drawn as, for whoever looks at failures. */
import type { Drawn } from './simulated-rig.ts';

export function factsOf({ job, faults, difficulty }: Drawn) {
  return {
    difficulty,
    volumeL: 1e3 * job.volumeM3,
    waterKg: faults.freeWater?.waterKg ?? 0,
    wetness: faults.wetness,
    heldWater: faults.heldWater.length,
    heldRefrigerant: faults.heldRefrigerant.length,
    foulPa: faults.foulPa,
    hoseLeakPa: faults.hoseLeakPa,
    farShut: faults.farShut,
    narrow: faults.narrow,
    onStub: job.stubM3 !== null,
    split: job.split,
    startK: job.metalTemperatureK,
    driftKPerHour: 3600 * job.surroundings.driftKPerS,
    swingK: job.surroundings.swingK,
    swingS: job.surroundings.swingPeriodS,
    relativeNoise: job.sensor.relativeNoise,
    noisePa: job.sensor.additiveNoisePa,
    lagS: job.sensor.lagS,
    offsetPa: job.sensor.offsetPa,
    thermal: job.sensor.shownPerPa.water > 1,
  };
}
