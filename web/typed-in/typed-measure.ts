/** A figure with the unit that stands beside it on a plate, a drawing or a tape: '4 cfm', '3/8 in', '25 ft'. Pure. */
import { numberFrom } from './typed-number.ts';

/** How a unit may be written, without gaps and in small letters, and how much of SI one of it is. */
type Units = readonly (readonly [RegExp, number])[];

/** Exactly: a foot, an inch, a pound (NIST SP 811, App. B.8). */
const FOOT_M = 0.3048;
const INCH_M = 0.0254;
const POUND_KG = 0.453_592_37;

export const LENGTHS_M: Units = [
  [/^m$/u, 1],
  [/^cm$/u, 0.01],
  [/^mm$/u, 0.001],
  [/^(ft|foot|feet|['′’])$/u, FOOT_M],
  [/^(in|inch|["″”])$/u, INCH_M],
];
export const VOLUMES_M3: Units = [
  [/^l$/u, 1e-3],
  [/^(ml|cc|cm3|cm³)$/u, 1e-6],
  [/^(m3|m³)$/u, 1],
  [/^(ft3|ft³|cuft)$/u, FOOT_M ** 3],
];
export const MASSES_KG: Units = [
  [/^kg$/u, 1],
  [/^g$/u, 1e-3],
  [/^(lb|lbs)$/u, POUND_KG],
  [/^oz$/u, POUND_KG / 16],
];
export const FLOWS_M3_PER_S: Units = [
  [/^cfm$/u, FOOT_M ** 3 / 60],
  [/^(l\/min|lpm)$/u, 1e-3 / 60],
  [/^(l\/s)$/u, 1e-3],
  [/^(m3\/h|m³\/h|cmh)$/u, 1 / 3600],
];

/**
 * @param usual of a figure without a unit: what the field says beside it
 * @returns in SI; null where nothing was typed, NaN where it can't be read
 */
export function measureFrom(text: string, units: Units, usual: number): number | null {
  const [, digits = '', unit = ''] = /^([\d\s.,/−-]*)(.*)$/u.exec(text.trim()) ?? [];
  const value = fractionFrom(digits);
  if (value === null) return text.trim() === '' ? null : Number.NaN;
  const written = unit.trim().toLowerCase().replaceAll(' ', '');
  if (written === '') return value * usual;
  const found = units.find(([pattern]) => pattern.test(written));
  return found === undefined ? Number.NaN : value * found[1];
}

/** '3/8' and '1 1/8' as they stand on fittings. */
function fractionFrom(digits: string): number | null {
  const [, whole, over, under] = /^(\d+\s+)?(\d+)\/(\d+)$/u.exec(digits.trim()) ?? [];
  if (over === undefined || under === undefined) return numberFrom(digits);
  return Number(whole ?? 0) + Number(over) / Number(under);
}
