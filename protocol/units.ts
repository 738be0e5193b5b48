/**
 * Exact conversion factors between the SI units used inside Ebbline and the units that people read.
 *
 * Sources: BIPM, The International System of Units (SI Brochure, 9th edition); NIST Special
 * Publication 811 (2008), Appendix B.8, for the conventional millimetre and inch of mercury
 * (density 13 595.1 kg/m³, standard gravity 9.80665 m/s²) and the torr (101 325/760 Pa).
 */

const STANDARD_GRAVITY_M_PER_S2 = 9.80665;
const CONVENTIONAL_MERCURY_KG_PER_M3 = 13_595.1;

/** Standard atmosphere, Pa (exact by definition). */
export const STANDARD_ATMOSPHERE_PA = 101_325;

/** One micron: a micrometre of conventional mercury, Pa. Exactly 0.133 322 387 415. */
export const PA_PER_MICRON = (CONVENTIONAL_MERCURY_KG_PER_M3 * STANDARD_GRAVITY_M_PER_S2) / 1e6;

/** 0 °C in kelvin (exact by definition). */
const ZERO_CELSIUS_K = 273.15;

/** Pressure units that a person can choose, in the order in which they are offered. */
export const PRESSURE_UNITS = ['micron', 'Pa', 'mbar', 'Torr', 'inHg'] as const;
export type PressureUnit = (typeof PRESSURE_UNITS)[number];

/** Pascal per unit. */
export const PA_PER_UNIT: Readonly<Record<PressureUnit, number>> = {
  micron: PA_PER_MICRON,
  Pa: 1,
  mbar: 100,
  Torr: STANDARD_ATMOSPHERE_PA / 760,
  inHg: PA_PER_MICRON * 25_400,
};

export const TEMPERATURE_UNITS = ['°C', '°F'] as const;
export type TemperatureUnit = (typeof TEMPERATURE_UNITS)[number];

/** Absolute pressure from a unit that people read to pascal. */
export function pressureToPa(value: number, unit: PressureUnit): number {
  return value * PA_PER_UNIT[unit];
}

/** Absolute pressure from pascal to a unit that people read. */
export function pressureFromPa(pressurePa: number, unit: PressureUnit): number {
  return pressurePa / PA_PER_UNIT[unit];
}

/** Shorthand for the trade's own unit: pascal to micron. */
export function micronFromPa(pressurePa: number): number {
  return pressurePa / PA_PER_MICRON;
}

/** Shorthand for the trade's own unit: micron to pascal. */
export function paFromMicron(micron: number): number {
  return micron * PA_PER_MICRON;
}

export function kelvinFromCelsius(temperatureC: number): number {
  return temperatureC + ZERO_CELSIUS_K;
}

export function celsiusFromKelvin(temperatureK: number): number {
  return temperatureK - ZERO_CELSIUS_K;
}

/** A temperature (not a difference) from °C to the unit that a person chose. */
export function temperatureFromC(temperatureC: number, unit: TemperatureUnit): number {
  return unit === '°C' ? temperatureC : temperatureC * 1.8 + 32;
}

/** A temperature (not a difference) from the unit that a person chose to °C. */
export function temperatureToC(value: number, unit: TemperatureUnit): number {
  return unit === '°C' ? value : (value - 32) / 1.8;
}
