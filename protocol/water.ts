/**
 * Vapour pressure of water and of ice, and the temperature at which either boils or sublimes.
 *
 * Liquid: IAPWS R7-97(2012), Industrial Formulation 1997, region 4, equations 30 and 31.
 * Ice: IAPWS R14-08(2011), Pressure along the Melting and Sublimation Curves of Ordinary Water
 * Substance, equation 6.
 */
import { kelvinFromCelsius } from './units.ts';

export const TRIPLE_POINT_K = 273.16;
export const TRIPLE_POINT_PA = 611.657;

/** The ice equation holds from here upward. */
const COLDEST_ICE_K = 50;
/** The liquid equation holds up to here, the critical point. */
const CRITICAL_POINT_K = 647.096;

/** R7-97, Table 34. */
const N = [
  0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.1202082470247e5,
  -0.32325550322333e7, 0.1491510861353e2, -0.48232657361591e4, 0.40511340542057e6,
  -0.23855557567849, 0.65017534844798e3,
] as const;

/** R14-08, Table 1: coefficient and exponent of the reduced temperature. */
const ICE_TERMS = [
  [-0.212144006e2, 0.333333333e-2],
  [0.273203819e2, 0.120666667e1],
  [-0.61059813e1, 0.170333333e1],
] as const;

/**
 * Saturation pressure over liquid water, Pa.
 * @throws RangeError outside 273.15 K to 647.096 K, where the equation does not hold.
 */
export function liquidVapourPressurePa(temperatureK: number): number {
  if (!(temperatureK >= 273.15 && temperatureK <= CRITICAL_POINT_K)) {
    throw new RangeError(
      `liquid water is described from 273.15 K to 647.096 K, not ${temperatureK} K`,
    );
  }
  const theta = temperatureK + N[8] / (temperatureK - N[9]);
  const a = theta * theta + N[0] * theta + N[1];
  const b = N[2] * theta * theta + N[3] * theta + N[4];
  const c = N[5] * theta * theta + N[6] * theta + N[7];
  return 1e6 * ((2 * c) / (-b + Math.sqrt(b * b - 4 * a * c))) ** 4;
}

/**
 * Saturation (sublimation) pressure over ice, Pa.
 * @throws RangeError outside 50 K to 273.16 K, where the equation does not hold.
 */
export function iceVapourPressurePa(temperatureK: number): number {
  if (!(temperatureK >= COLDEST_ICE_K && temperatureK <= TRIPLE_POINT_K)) {
    throw new RangeError(`ice is described from 50 K to 273.16 K, not ${temperatureK} K`);
  }
  const theta = temperatureK / TRIPLE_POINT_K;
  const sum = ICE_TERMS.reduce((total, [a, b]) => total + a * theta ** b, 0);
  return TRIPLE_POINT_PA * Math.exp(sum / theta);
}

/** Saturation pressure of water in whichever state it is stable at this temperature, Pa. */
export function waterVapourPressurePa(temperatureC: number): number {
  const temperatureK = kelvinFromCelsius(temperatureC);
  return temperatureK < TRIPLE_POINT_K
    ? iceVapourPressurePa(temperatureK)
    : liquidVapourPressurePa(temperatureK);
}

/**
 * The temperature at which water boils (above the triple point) or ice sublimes (below it) when the
 * absolute pressure above it is `pressurePa`, in °C.
 * @throws RangeError unless 1e-3 Pa ≤ pressure ≤ 22 MPa.
 */
export function boilingPointC(pressurePa: number): number {
  if (!(pressurePa >= 1e-3 && pressurePa <= 22e6)) {
    throw new RangeError(
      `the boiling point is known from 0.001 Pa to 22 MPa, not at ${pressurePa} Pa`,
    );
  }
  return pressurePa >= TRIPLE_POINT_PA
    ? liquidBoilingPointC(pressurePa)
    : iceSublimationPointC(pressurePa);
}

/** R7-97, equation 31, the backward form of region 4. */
function liquidBoilingPointC(pressurePa: number): number {
  const beta = (pressurePa / 1e6) ** 0.25;
  const e = beta * beta + N[2] * beta + N[5];
  const f = N[0] * beta * beta + N[3] * beta + N[6];
  const g = N[1] * beta * beta + N[4] * beta + N[7];
  const d = (2 * g) / (-f - Math.sqrt(f * f - 4 * e * g));
  return (N[9] + d - Math.sqrt((N[9] + d) ** 2 - 4 * (N[8] + N[9] * d))) / 2 - 273.15;
}

/** The ice equation has no closed inverse; its logarithm is smooth and monotonic, so halving is safe. */
function iceSublimationPointC(pressurePa: number): number {
  let lowK = 100;
  let highK = TRIPLE_POINT_K;
  for (let step = 0; step < 60; step += 1) {
    const middleK = (lowK + highK) / 2;
    if (iceVapourPressurePa(middleK) < pressurePa) lowK = middleK;
    else highK = middleK;
  }
  return (lowK + highK) / 2 - 273.15;
}
