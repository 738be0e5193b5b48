/** A vacuum sensor as a measuring instrument: lag, noise, steps and the end of its range. */
import { z } from 'zod';
import type { SeededRandom } from './seeded-random.ts';

export const sensorSetupSchema = z.strictObject({
  /** Time constant with which it follows, s. */
  lagS: z.number().min(0),
  /** Standard deviation of its noise, as a share of the pressure. */
  relativeNoise: z.number().min(0),
  /** Standard deviation of its noise that is always there, Pa. */
  additiveNoisePa: z.number().min(0),
  /** Its display's or converter's step, Pa. */
  stepPa: z.number().gt(0),
  /** Above this it knows no pressure. */
  rangeHighPa: z.number().gt(0),
});
export type SensorSetup = z.infer<typeof sensorSetupSchema>;

/**
 * Invented, and typical of small electronic vacuum gauges: common practice, no source. The range ends
 * at 20 000 Pa (150 000 micron): most of the way down from the atmosphere it is over range.
 */
export const TYPICAL_SENSOR: SensorSetup = {
  lagS: 0.8,
  relativeNoise: 0.004,
  additiveNoisePa: 0.06,
  stepPa: 0.1,
  rangeHighPa: 20_000,
};

export class Sensor {
  readonly #setup: SensorSetup;
  readonly #random: SeededRandom;
  /** What the lagging element feels now, Pa. */
  #feltPa: number;

  /** @param pressurePa the pressure in which it has stood so long that it feels it */
  constructor(setup: SensorSetup, pressurePa: number, random: SeededRandom) {
    this.#setup = setup;
    this.#feltPa = pressurePa;
    this.#random = random;
  }

  /** Time has passed, at whose end (and, roughly, during which) the true pressure was this. */
  follow(durationS: number, pressurePa: number): void {
    const { lagS } = this.#setup;
    const share = lagS === 0 ? 1 : 1 - Math.exp(-durationS / lagS);
    this.#feltPa += share * (pressurePa - this.#feltPa);
  }

  /** The reading, Pa, or null over range. */
  read(): number | null {
    const { relativeNoise, additiveNoisePa, stepPa, rangeHighPa } = this.#setup;
    // Drawn even where they aren't used, so that a reading's noise depends on its number alone.
    const noisy =
      this.#feltPa * (1 + relativeNoise * this.#random.normal()) +
      additiveNoisePa * this.#random.normal();
    if (noisy > rangeHighPa) return null;
    return Math.max(0, Math.round(noisy / stepPa) * stepPa);
  }
}
