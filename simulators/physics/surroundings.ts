/** What the rig stands in: temperature and its drift, the atmosphere. */
import { z } from 'zod';

export const surroundingsSchema = z
  .strictObject({
    /** Of gas and air at the start, K; the trade works between 0 and 45 °C and rarely beyond. */
    temperatureK: z.number().min(230).max(340),
    /** Steady drift, K/s. */
    driftKPerS: z.number().min(-0.01).max(0.01),
    /** A swing about that, as of sun and clouds. */
    swingK: z.number().min(0).max(20),
    swingPeriodS: z.number().min(60),
    /** 101 325 Pa at sea level, about 11 % less for each 1000 m up. */
    atmospherePa: z.number().min(50_000).max(110_000),
    /** Partial pressure of water vapour outside, Pa. */
    humidityPa: z.number().min(0).max(10_000),
  })
  .refine(({ atmospherePa, humidityPa }) => humidityPa < atmospherePa, {
    message: 'the vapour outside cannot have more than the pressure of all the air',
  });
export type Surroundings = z.infer<typeof surroundingsSchema>;

/** Fair weather at sea level: 20 °C, steady, 1000 Pa of vapour (43 % relative humidity). */
export const FAIR_WEATHER: Surroundings = {
  temperatureK: 293.15,
  driftKPerS: 0,
  swingK: 0,
  swingPeriodS: 1800,
  atmospherePa: 101_325,
  humidityPa: 1000,
};

/**
 * Warmer than at the start, K. Gas and metal are taken to follow at once: a thin line does within a
 * minute, a heavy compressor takes longer.
 */
export function warmedK(
  { driftKPerS, swingK, swingPeriodS }: Surroundings,
  elapsedS: number,
): number {
  return driftKPerS * elapsedS + swingK * Math.sin((2 * Math.PI * elapsedS) / swingPeriodS);
}

export function gasTemperatureK(surroundings: Surroundings, elapsedS: number): number {
  return surroundings.temperatureK + warmedK(surroundings, elapsedS);
}
