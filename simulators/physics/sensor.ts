/** A vacuum sensor as a measuring instrument: what it senses, lag, noise, steps, end of its range. */
import { z } from 'zod';
import { GASES, type PerGas } from './gases.ts';
import { perGasSchema } from './section-setup.ts';
import type { SeededRandom } from './seeded-random.ts';

export const sensorSetupSchema = z.strictObject({
  /**
   * What it shows for one pascal of each gas. A diaphragm gauge feels the pressure itself: 1 for all.
   * A thermal one feels how the gas carries heat, and shows water vapour and refrigerant too high.
   */
  shownPerPa: perGasSchema,
  /** Time constant with which it follows, s; oil on the element makes it long. */
  lagS: z.number().min(0),
  /** Always shown too much, Pa. */
  offsetPa: z.number().min(-100).max(100),
  /** Standard deviation of its noise, as a share of the pressure. */
  relativeNoise: z.number().min(0),
  /** Standard deviation of its noise that is always there, Pa. */
  additiveNoisePa: z.number().min(0),
  /** Its display's or converter's step: that of the last entry whose `fromPa` is reached. */
  steps: z.array(z.strictObject({ fromPa: z.number().min(0), stepPa: z.number().gt(0) })).min(1),
  /** Above this it knows no pressure. */
  rangeHighPa: z.number().gt(0),
});
export type SensorSetup = z.infer<typeof sensorSetupSchema>;

/**
 * Invented, and typical of small electronic vacuum gauges: common practice, no source. The range ends
 * at 20 000 Pa (150 000 micron): most of the way down from the atmosphere it is over range.
 */
export const TYPICAL_SENSOR: SensorSetup = {
  shownPerPa: { air: 1, water: 1, refrigerant: 1 },
  lagS: 0.8,
  offsetPa: 0,
  relativeNoise: 0.004,
  additiveNoisePa: 0.06,
  steps: [
    { fromPa: 0, stepPa: 0.1 },
    { fromPa: 1000, stepPa: 1 },
    { fromPa: 10_000, stepPa: 10 },
  ],
  rangeHighPa: 20_000,
};

/**
 * A thermal gauge, calibrated for air. That it shows about half as much again for water vapour and
 * refrigerant is from memory of such gauges' charts, which differ by tens of per cent.
 */
export const THERMAL_SENSOR: SensorSetup = {
  ...TYPICAL_SENSOR,
  shownPerPa: { air: 1, water: 1.5, refrigerant: 1.4 },
  lagS: 1.5,
  relativeNoise: 0.008,
};

export class Sensor {
  readonly #setup: SensorSetup;
  readonly #random: SeededRandom;
  /** What the lagging element feels now, Pa. */
  #feltPa: number;

  /** @param partialPa in which it has stood so long that it feels them */
  constructor(setup: SensorSetup, partialPa: PerGas<number>, random: SeededRandom) {
    this.#setup = setup;
    this.#feltPa = sensedPa(setup, partialPa);
    this.#random = random;
  }

  /** Time has passed, at whose end (and, roughly, during which) the true partial pressures were these. */
  follow(durationS: number, partialPa: PerGas<number>): void {
    const { lagS } = this.#setup;
    const share = lagS === 0 ? 1 : 1 - Math.exp(-durationS / lagS);
    this.#feltPa += share * (sensedPa(this.#setup, partialPa) - this.#feltPa);
  }

  /** What it would show without noise and steps, Pa, or null over range. */
  get quietPa(): number | null {
    const { offsetPa, rangeHighPa } = this.#setup;
    const shownPa = this.#feltPa + offsetPa;
    return shownPa > rangeHighPa ? null : Math.max(shownPa, 0);
  }

  /** The reading, Pa, or null over range. */
  read(): number | null {
    const { offsetPa, relativeNoise, additiveNoisePa, steps, rangeHighPa } = this.#setup;
    // Drawn even where they aren't used, so that a reading's noise depends on its number alone.
    const noisy =
      offsetPa +
      this.#feltPa * (1 + relativeNoise * this.#random.normal()) +
      additiveNoisePa * this.#random.normal();
    if (noisy > rangeHighPa) return null;
    const { stepPa } = steps.findLast(({ fromPa }) => fromPa <= noisy) ?? { stepPa: 0.1 };
    return Math.max(0, Math.round(noisy / stepPa) * stepPa);
  }
}

function sensedPa({ shownPerPa }: SensorSetup, partialPa: PerGas<number>): number {
  return GASES.reduce((sum, gas) => sum + shownPerPa[gas] * partialPa[gas], 0);
}
