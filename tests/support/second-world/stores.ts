/** What walls and oil give off, drawn so that it amounts to something at the time that matters. */
import { between, logBetween } from '../invented-curves.ts';
import { chance } from './chance.ts';
import type { Spectrum } from './reservoirs.ts';

/** Two a decade from 10 s to 10⁵ s. */
const TAUS_S = Array.from({ length: 9 }, (_, i) => 10 ** (1 + i / 2));

/**
 * Walls or oil that give off `inflowPaM3PerS` after being pumped on for `atS`.
 * Their amounts follow the time constant's power `power`: 0 gives a tail like 1/t, ½ like 1/√t.
 */
export function tail(
  shape: { readonly power: number; readonly equilibriumPa: number; readonly perK: number },
  inflowPaM3PerS: number,
  atS: number,
  place: Pick<Spectrum, 'gas' | 'node'>,
): Spectrum {
  const amounts = TAUS_S.map((tauS) => tauS ** shape.power);
  const inflow = TAUS_S.reduce(
    (sum, tauS, i) => sum + ((amounts[i] ?? 0) / tauS) * Math.exp(-atS / tauS),
    0,
  );
  const holdsPaM3 = amounts.map((amount) => (amount * inflowPaM3PerS) / inflow);
  return {
    ...place,
    tausS: TAUS_S,
    holdsPaM3,
    equilibriumPa: shape.equilibriumPa,
    perK: shape.perK,
  };
}

/** Wetted metal and what hangs on it: in balance with the humidity that was there before. */
export function drawWallTail(random: () => number, inflowPaM3PerS: number, atS: number): Spectrum {
  const shape = {
    power: between(random, -0.25, 0.35),
    equilibriumPa: logBetween(random, 300, 2500),
    // Water on metal holds on by some 50 to 60 kJ/mol: 0.07/K near 20 °C.
    perK: 0.07,
  };
  return tail(shape, inflowPaM3PerS, atS, { gas: 'vapour', node: drawNode(random) });
}

/** Gas dissolved in the compressor's oil: in balance with an atmosphere. */
export function drawOilTail(random: () => number, inflowPaM3PerS: number, atS: number): Spectrum {
  const shape = { power: between(random, 0.35, 0.6), equilibriumPa: 1e5, perK: 0.02 };
  return tail(shape, inflowPaM3PerS, atS, { gas: 'air', node: drawNode(random) });
}

export function drawNode(random: () => number): 'near' | 'far' {
  return chance(random, 0.5) ? 'near' : 'far';
}
