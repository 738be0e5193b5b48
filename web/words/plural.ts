/** Forms of a word by how many there are, by the language's own rule (Unicode's plural rules). */
import type { Language } from '../../protocol/languages.ts';

interface Forms {
  readonly one: string;
  readonly other: string;
}

export function pluralsIn(language: Language): (count: number, forms: Forms) => string {
  const rules = new Intl.PluralRules(language);
  return (count, { one, other }) => (rules.select(count) === 'one' ? one : other);
}
