/** A speech where every language is at hand: in the bridge, at the terminal, and in tests. */
import type { Language } from '../../protocol/languages.ts';
import { english, type Wording } from './english.ts';
import { spanish } from './spanish.ts';
import { type Speech, speechIn } from './speech.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

const WORDINGS: Readonly<Record<Language, Wording>> = { en: english, es: spanish };

export function speechOf(language: Language, units: UnitsOfChoice): Speech {
  return speechIn(language, WORDINGS[language], units);
}
