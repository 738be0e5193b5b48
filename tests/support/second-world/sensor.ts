/** Sensors of the second world: how they err, and the readings that they give of a true curve. */
import type { HistoryPoint } from '../../../web/analysis/readings/history.ts';
import { paFromMicron } from '../../../protocol/units.ts';
import { between, logBetween, normal } from '../invented-curves.ts';
import { choose, chance } from './chance.ts';
import type { Reads, TrueCurve } from './true-curve.ts';

export interface Sensor extends Reads {
  readonly ratePerS: number;
  /** First-order lag of the reading, s. */
  readonly lagS: number;
  readonly noisePa: number;
  readonly relativeNoise: number;
  /** Share of the noise's variance that is correlated, and over which time, s. */
  readonly slowShare: number;
  readonly slowS: number;
  readonly quantumPa: number;
  /** Steps in which it shows pressures above `coarseFromPa`. */
  readonly coarsePa: number;
  readonly coarseFromPa: number;
  readonly spikeShare: number;
  /** Above this it is over range, Pa. */
  readonly topPa: number;
  /** Zero that moves with its temperature, Pa/K, and by itself, Pa/h. */
  readonly zeroPaPerK: number;
  readonly zeroPaPerHour: number;
  readonly tellsTemperature: boolean;
}

/** More readings than that are not drawn for one curve: a setting of ours, for the sake of time. */
const MOST_READINGS = 12_000;
const QUANTA_PA = [0.001, 0.1, paFromMicron(1), paFromMicron(1), 1] as const;
/** 1, 2, 10, 20 and 100 torr, and none. */
const TOPS_PA = [
  133.3, 266.6, 1333, 1333, 2666, 2666, 2666, 2666, 13_330, 120_000, 120_000, 120_000,
] as const;

/** @param lengthS how long it will be read */
export function drawSensor(random: () => number, lengthS: number): Sensor {
  const ratePerS = choose(random, [0.2, 0.5, 1, 1, 2, 4, 8, 10]);
  const coarse = chance(random, 0.3);
  return {
    gain: chance(random, 0.3) ? 1 : between(random, 0.9, 1.1),
    vapourFactor: chance(random, 0.4) ? between(random, 0.8, 1.3) : 1,
    ratePerS: Math.min(ratePerS, MOST_READINGS / lengthS),
    lagS: logBetween(random, 0.05, 2),
    noisePa: logBetween(random, 0.02, 0.4),
    relativeNoise: logBetween(random, 0.0003, 0.01),
    slowShare: chance(random, 0.5) ? between(random, 0.1, 0.9) : 0,
    slowS: logBetween(random, 1, 30),
    quantumPa: choose(random, QUANTA_PA),
    coarsePa: coarse ? choose(random, [1.333, 6.67, 13.33]) : 0,
    coarseFromPa: coarse ? choose(random, [133.3, 666.6]) : Infinity,
    spikeShare: chance(random, 0.25) ? logBetween(random, 0.0005, 0.01) : 0,
    topPa: choose(random, TOPS_PA),
    zeroPaPerK: chance(random, 0.3) ? between(random, -0.15, 0.15) : 0,
    zeroPaPerHour: chance(random, 0.2) ? between(random, -0.5, 0.5) : 0,
    tellsTemperature: chance(random, 0.5),
  };
}

export interface Silence {
  readonly fromS: number;
  readonly toS: number;
}

/** Times without readings: the radio was away. */
export function drawSilences(random: () => number, share: number, fromS: number, toS: number) {
  const silences: Silence[] = [];
  if (!chance(random, share)) return silences;
  const count = 1 + Math.floor(3 * random() ** 2);
  for (let i = 0; i < count; i += 1) {
    const atS = between(random, fromS, toS);
    silences.push({
      fromS: atS,
      toS: atS + Math.min(logBetween(random, 8, 300), 0.2 * (toS - fromS)),
    });
  }
  return silences;
}

/** The readings from `fromS` to `toS`. */
export function readings(
  curve: TrueCurve,
  sensor: Sensor,
  random: () => number,
  span: { readonly fromS: number; readonly toS: number; readonly silences: readonly Silence[] },
  temperatureAt: (elapsedS: number) => number,
): HistoryPoint[] {
  const points: HistoryPoint[] = [];
  const stepS = 1 / sensor.ratePerS;
  const memory = Math.exp(-stepS / sensor.slowS);
  const follow = 1 - Math.exp(-stepS / sensor.lagS);
  const startC = temperatureAt(span.fromS);
  const phaseS = random() * stepS;
  let slow = normal(random);
  let seenPa = curve.shownAt(span.fromS, sensor);
  for (let elapsedS = span.fromS + phaseS; elapsedS <= span.toS; elapsedS += stepS) {
    const nowC = temperatureAt(elapsedS);
    seenPa += follow * (curve.shownAt(elapsedS, sensor) - seenPa);
    slow = memory * slow + Math.sqrt(1 - memory * memory) * normal(random);
    const noise =
      Math.sqrt(sensor.slowShare) * slow + Math.sqrt(1 - sensor.slowShare) * normal(random);
    const sigmaPa = Math.hypot(sensor.noisePa, sensor.relativeNoise * seenPa);
    const zeroPa =
      sensor.zeroPaPerK * (nowC - startC) + (sensor.zeroPaPerHour * (elapsedS - span.fromS)) / 3600;
    const spike = chance(random, sensor.spikeShare) ? between(random, 0.4, 2.5) : 1;
    const readPa = (seenPa + sigmaPa * noise + zeroPa) * spike;
    const at = elapsedS;
    if (span.silences.some(({ fromS, toS }) => at > fromS && at < toS)) continue;
    const temperatureC = sensor.tellsTemperature ? Math.round(10 * nowC) / 10 : null;
    const over = readPa > sensor.topPa;
    points.push({
      elapsedS,
      pressurePa: over ? null : shown(sensor, readPa),
      condition: over ? 'over_range' : 'ok',
      temperatureC,
    });
  }
  return points;
}

function shown({ quantumPa, coarsePa, coarseFromPa }: Sensor, readPa: number): number {
  const stepPa = readPa > coarseFromPa ? Math.max(coarsePa, quantumPa) : quantumPa;
  return Math.max(Math.round(readPa / stepPa) * stepPa, 0);
}
