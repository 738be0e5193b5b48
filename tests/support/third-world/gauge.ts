/** What a gauge of the third world makes of a pressure, and what of that reaches the record. */
import { normal } from '../invented-curves.ts';
import type { HistoryPoint } from '../../../web/analysis/readings/history.ts';

export interface Gauge {
  /** Its error decade by decade: the knots of its gain, from 0.1 Pa on, between which it goes evenly. */
  readonly gains: readonly number[];
  readonly zeroPa: number;
  readonly zeroPaPerK: number;
  readonly zeroPaPerHour: number;
  readonly lagS: number;
  readonly noisePa: number;
  readonly noiseShare: number;
  /** How long its noise stays on one side, s. */
  readonly noiseLagS: number;
  readonly steps: Steps;
  readonly topPa: number;
  readonly sampling: Sampling;
  /** What a valve that is worked makes it show for some seconds, as a share. */
  readonly glitchShare: number;
  readonly hasThermometer: boolean;
}

export type Steps =
  | { readonly kind: 'even'; readonly stepPa: number }
  | { readonly kind: 'digits'; readonly digits: number }
  /** A voltage that goes with the logarithm, read in so many steps a factor of e. */
  | { readonly kind: 'logarithmic'; readonly perFactorE: number };

export interface Sampling {
  readonly ratePerS: number;
  /** Of the time between two. */
  readonly jitterShare: number;
  readonly lostShare: number;
  readonly silencesS: readonly { readonly fromS: number; readonly toS: number }[];
  /** Its stamps have no parts of seconds. */
  readonly wholeSeconds: boolean;
}

export interface Seen {
  readonly points: readonly HistoryPoint[];
  /** But for noise and steps. */
  readonly shownAt: (elapsedS: number) => number;
}

/** How far apart what it shows is worked out, s. */
const GRID_S = 0.25;
const GLITCH_S = 4;

export function seen(
  gauge: Gauge,
  random: () => number,
  gasPaAt: (elapsedS: number) => number,
  gaugeC: (elapsedS: number) => number,
  span: { readonly fromS: number; readonly toS: number; readonly valvesS: readonly number[] },
): Seen {
  const { fromS, toS, valvesS } = span;
  const lagged = laggedPressures(gauge, gasPaAt, fromS, toS);
  const shownAt = (elapsedS: number) => {
    const place = Math.min(Math.max((elapsedS - fromS) / GRID_S, 0), lagged.length - 1);
    const from = lagged[Math.floor(place)] ?? 0;
    const pressurePa = from + (place % 1) * ((lagged[Math.ceil(place)] ?? from) - from);
    const zeroPa =
      gauge.zeroPa +
      gauge.zeroPaPerK * (gaugeC(elapsedS) - gaugeC(fromS)) +
      (gauge.zeroPaPerHour * (elapsedS - fromS)) / 3600;
    return pressurePa * gainAt(gauge, pressurePa) + zeroPa;
  };
  const { sampling } = gauge;
  const stepS = 1 / sampling.ratePerS;
  const memory = Math.exp(-stepS / gauge.noiseLagS);
  const points: HistoryPoint[] = [];
  let noise = normal(random);
  for (let atS = fromS; atS <= toS; atS += stepS) {
    noise = memory * noise + Math.sqrt(1 - memory ** 2) * normal(random);
    const measuredS = Math.max(fromS, atS + (random() - 0.5) * sampling.jitterShare * stepS);
    const isLost =
      random() < sampling.lostShare ||
      sampling.silencesS.some((silence) => atS > silence.fromS && atS < silence.toS);
    if (isLost) continue;
    const truePa = shownAt(measuredS);
    const glitch = valvesS
      .map((valveS) => measuredS - valveS)
      .filter((sinceS) => sinceS >= 0 && sinceS < GLITCH_S)
      .reduce((sum, sinceS) => sum + gauge.glitchShare * Math.exp(-sinceS), 0);
    const noisyPa = truePa * (1 + glitch + gauge.noiseShare * noise) + gauge.noisePa * noise;
    points.push(pointOf(gauge, measuredS, noisyPa, gaugeC(measuredS)));
  }
  return { points, shownAt };
}

function pointOf(gauge: Gauge, measuredS: number, noisyPa: number, warmC: number): HistoryPoint {
  const elapsedS = gauge.sampling.wholeSeconds ? Math.floor(measuredS) : measuredS;
  const temperatureC = gauge.hasThermometer ? Math.round(warmC * 10) / 10 : null;
  if (noisyPa > gauge.topPa) {
    return { elapsedS, pressurePa: null, condition: 'over_range', temperatureC };
  }
  const pressurePa = Math.max(0, stepped(gauge.steps, noisyPa));
  return { elapsedS, pressurePa, condition: 'ok', temperatureC };
}

function stepped(steps: Steps, pressurePa: number): number {
  if (pressurePa <= 0) return 0;
  switch (steps.kind) {
    case 'even':
      return Math.round(pressurePa / steps.stepPa) * steps.stepPa;
    case 'digits':
      return Number(pressurePa.toPrecision(steps.digits));
    case 'logarithmic':
      return Math.exp(Math.round(Math.log(pressurePa) * steps.perFactorE) / steps.perFactorE);
  }
}

function gainAt({ gains }: Gauge, pressurePa: number): number {
  const place = Math.min(Math.max(Math.log10(Math.max(pressurePa, 0.1)) + 1, 0), gains.length - 1);
  const from = gains[Math.floor(place)] ?? 1;
  return from + (place % 1) * ((gains[Math.ceil(place)] ?? from) - from);
}

function laggedPressures(
  { lagS }: Gauge,
  gasPaAt: (elapsedS: number) => number,
  fromS: number,
  toS: number,
): number[] {
  const share = 1 - Math.exp(-GRID_S / lagS);
  const found = [gasPaAt(fromS)];
  for (let atS = fromS + GRID_S; atS <= toS + GRID_S; atS += GRID_S) {
    const lastPa = found[found.length - 1] ?? 0;
    found.push(lastPa + share * (gasPaAt(atS) - lastPa));
  }
  return found;
}
