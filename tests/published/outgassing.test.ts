/** How what walls and oil hold comes off under the pump. */
import { describe, expect, it } from 'vitest';
import { advance } from '../../simulators/physics/advance.ts';
import { createRig, totalPressurePa } from '../../simulators/physics/rig-state.ts';
import { PUMPING, smallRig } from '../support/small-rig.ts';

/** Reservoirs from 1 s to seven weeks, each with twice the time of the one before. */
const TIMES_S = Array.from({ length: 23 }, (_, octave) => 2 ** octave);

/** Slope of pressure over time in double-logarithmic paper, from 1 to 10 hours under the pump. */
function slopeOf(contentMol: (exchangeS: number) => number): number {
  const reservoirs = TIMES_S.map((exchangeS) => ({
    gas: 'water' as const,
    capacityMolPerPa: contentMol(exchangeS) / 1000,
    exchangeS,
    startPa: 1000,
  }));
  const start = createRig(smallRig({ airPa: 0, reservoirs }));
  const early = advance(start, 3600, PUMPING);
  const late = advance(early, 9 * 3600, PUMPING);
  return Math.log10(totalPressurePa(late, 0) / totalPressurePa(early, 0));
}

describe('outgassing', () => {
  it('falls like 1/t from walls: as much held for each octave of times', () => {
    // Pfeiffer Vacuum, Vacuum Technology Know how, 1.3.3: metals after an hour, exponent −1. A public
    // log of a metal chamber (am4space, 2023) has −0.945 to −1.009.
    expect(slopeOf(() => 1e-6)).toBeGreaterThan(-1.1);
    expect(slopeOf(() => 1e-6)).toBeLessThan(-0.9);
  });

  it('falls like 1/√t from rubber and oil: more held for the longer times, with their root', () => {
    // The same: plastics and elastomers, exponent about −1/2 (diffusion).
    const slope = slopeOf((exchangeS) => 1e-7 * Math.sqrt(exchangeS));
    expect(slope).toBeGreaterThan(-0.6);
    expect(slope).toBeLessThan(-0.4);
  });
});
