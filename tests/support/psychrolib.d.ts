/** The package ships no types; only what the tests use is declared. */
declare module 'psychrolib' {
  export const SI: number;
  export function SetUnitSystem(units: number): void;
  /** Saturation vapour pressure, Pa, at a temperature in °C. */
  export function GetSatVapPres(temperatureC: number): number;
}
