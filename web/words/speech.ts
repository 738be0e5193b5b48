/**
 * How one reader is spoken to: wording, units and the way in which numbers and dates are written. Handed
 * on to whatever says something and kept nowhere, since the bridge may write two reports at once.
 */
import type { Language } from '../../protocol/languages.ts';
import type { Wording } from './english.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

export interface Speech {
  readonly language: Language;
  readonly wording: Wording;
  readonly units: UnitsOfChoice;
  /** Between a number's whole part and its fraction. */
  readonly decimalMark: string;
  /** For dates and times of day (BCP 47). */
  readonly locale: string;
}

/** Of English the one that counts the hours to 24, as Spanish does. */
const LOCALES: Readonly<Record<Language, string>> = { en: 'en-GB', es: 'es' };

/** @param wording of that language, from its own file: a page loads only what it speaks */
export function speechIn(language: Language, wording: Wording, units: UnitsOfChoice): Speech {
  const locale = LOCALES[language];
  return { language, wording, units, decimalMark: decimalMarkIn(locale), locale };
}

function decimalMarkIn(locale: string): string {
  const parts = new Intl.NumberFormat(locale).formatToParts(0.5);
  return parts.find(({ type }) => type === 'decimal')?.value ?? '.';
}
