/** Conclusions for tests of what is made of them. */
import { paFromMicron } from '../../../protocol/units.ts';
import type { Conclusions, Forecast, Rise } from '../../../web/analysis/conclusions.ts';

export function micron(estimate: number, low: number, high: number) {
  return {
    estimate: paFromMicron(estimate),
    low: paFromMicron(low),
    high: paFromMicron(high),
  };
}

export function forecastWith(change: Partial<Forecast> = {}): Forecast {
  return {
    sinceS: 100,
    outcome: 'reaches',
    remaining: { p10S: 120, p50S: 180, p90S: 300 },
    remainingToIsolation: { p10S: 480, p50S: 660, p90S: 960 },
    floorPa: null,
    causes: [{ cause: 'slow_tail', weight: 1 }],
    boilingPointC: null,
    curve: [],
    ...change,
  };
}

export function riseWith(change: Partial<Rise> = {}): Rise {
  return {
    sinceS: 1000,
    heldS: 370,
    verdict: 'leak_and_moisture',
    reservations: [],
    leakPaPerS: {
      estimate: paFromMicron(38) / 60,
      low: paFromMicron(34) / 60,
      high: paFromMicron(42) / 60,
    },
    moisturePa: micron(210, 190, 230),
    changeoverS: 170,
    endOfHold: { ...micron(1030, 990, 1070), atS: 900 },
    keepsRule: false,
    moreS: null,
    earlierHolds: 0,
    evenedPa: null,
    steps: [],
    noisePa: 0.1,
    leakRatePaM3PerS: null,
    curve: [],
    ...change,
  };
}

export function conclusionsWith(change: Partial<Conclusions> = {}): Conclusions {
  return {
    nowS: 560,
    stage: { name: 'pull_down', sinceS: 100, recognisedBy: 'mark', alternatives: [] },
    pullDownS: 100,
    pressurePa: paFromMicron(612),
    relativeRatePerS: Math.log(0.94) / 60,
    targetReachedS: null,
    holds: [],
    isolationDepthReachedS: null,
    forecast: forecastWith(),
    holdChance: null,
    rise: null,
    ...change,
  };
}

export function inRise(change: Partial<Rise> = {}): Conclusions {
  const rise = riseWith(change);
  return conclusionsWith({
    nowS: rise.sinceS + rise.heldS,
    stage: { name: 'rise', sinceS: rise.sinceS, recognisedBy: 'mark', alternatives: [] },
    forecast: null,
    holdChance: null,
    rise,
  });
}
