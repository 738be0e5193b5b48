/** A number as a person types it, and whether it might be read in two ways: pure. */
import type { PressureUnit } from '../../protocol/units.ts';

/** Comma or point, any minus, thousands apart by spaces. Null where nothing was typed, NaN for no number. */
export function numberFrom(text: string): number | null {
  const plain = text
    .trim()
    .replace(/(?<=\d)\s(?=\d{3}(?!\d))/gu, '')
    .replace(',', '.')
    .replace('−', '-');
  return plain === '' ? null : Number(plain);
}

/**
 * '1,500' or '1.500' is a thousand and a half to some and one and a half to others. In these units no gauge
 * shows a thousandth, and a pressure that is a thousand times too low would be a depth that was never there.
 */
export function isMistakable(text: string, unit: PressureUnit): boolean {
  const isCoarse = unit === 'micron' || unit === 'Pa';
  return isCoarse && /^[1-9]\d{0,2}[.,]\d{3}$/u.test(text.trim());
}

/** A number that stands in a form must not look like thousands either: 1000 micron are 133.322 Pa. */
export function unmistakable(text: string, unit: PressureUnit): string {
  return isMistakable(text, unit) ? `${text}0` : text;
}

/** The same, of a pressure in this unit: NaN also for what might be read in two ways. */
export function pressureNumberFrom(text: string, unit: PressureUnit): number | null {
  return isMistakable(text, unit) ? Number.NaN : numberFrom(text);
}
