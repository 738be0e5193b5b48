/** How tests are spoken to, where the words are what they are about. */
import { speechOf } from '../../web/words/speech-of.ts';
import type { UnitsOfChoice } from '../../web/words/units-of-choice.ts';

/** English, in the units that a page begins with. */
export const MICRON = englishIn({});

export function englishIn({ pressure = 'micron', temperature = '°C' }: Partial<UnitsOfChoice>) {
  return speechOf('en', { pressure, temperature });
}
