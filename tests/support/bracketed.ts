/**
 * A made-up language: English in brackets. What stands between ⟦ and ⟧ came out of the wording, between
 * ⟨ and ⟩ what was put into a sentence of it. Letters anywhere else were never given to a translator.
 */
import { z } from 'zod';
import { english, type Wording } from '../../web/words/english.ts';

const wordingSchema = z.custom<Wording>((value) => typeof value === 'object');

/** Under the name that the page asks for: it takes the place of Spanish. */
export const spanish: Wording = wordingSchema.parse(bracketed(english));

function bracketed(entry: unknown): unknown {
  if (typeof entry === 'string') return entry === '' ? '' : `⟦${entry}⟧`;
  if (typeof entry === 'function') {
    return (values: unknown) => `⟦${String(Reflect.apply(entry, undefined, [put(values)]))}⟧`;
  }
  if (Array.isArray(entry)) return entry.map(bracketed);
  if (typeof entry !== 'object' || entry === null) return entry;
  return Object.fromEntries(Object.entries(entry).map(([key, value]) => [key, bracketed(value)]));
}

/** Numbers are left as they are: they choose a plural. */
function put(values: unknown): unknown {
  if (typeof values !== 'object' || values === null) return values;
  return Object.fromEntries(
    Object.entries(values).map(([key, value]: [string, unknown]) => [
      key,
      typeof value === 'string' ? `⟨${value}⟩` : value,
    ]),
  );
}
