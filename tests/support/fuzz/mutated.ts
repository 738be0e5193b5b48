/** What becomes of sound values, texts and bytes in hands that mean no good, or in a cable that is broken. */
import type { Json, SchemaValues } from './from-schema.ts';

const ODD: readonly Json[] = [
  null,
  true,
  '',
  '\ud800',
  '\udc00\ud800 \u0000 \u202e',
  '__proto__',
  "'; DROP TABLE reading; --",
  'NaN',
  '1e999',
  'x'.repeat(3000),
  0,
  -0,
  -1,
  0.1,
  2 ** 31,
  2 ** 32,
  2 ** 53,
  2 ** 53 + 2,
  1e308,
  -1e308,
  5e-324,
  [],
  {},
  [[[[[[[[]]]]]]]],
];

/** The same value, wrong somewhere, once or a few times. */
export function mutatedValue(value: Json, values: SchemaValues): Json {
  if (values.below(4) === 0) return values.of(ODD) ?? null;
  if (Array.isArray(value)) {
    const items: Json[] = [...value];
    const at = values.below(items.length + 1);
    if (values.below(3) === 0) items.splice(at, 1);
    else items.splice(at, 1, mutatedValue(items[at] ?? 0, values));
    return items;
  }
  if (typeof value === 'object' && value !== null) {
    const entries = Object.entries(value);
    const at = values.below(entries.length + 1);
    const [name, old] = entries[at] ?? [values.of(['__proto__', 'constructor', 'x', '']) ?? '', 1];
    if (values.below(4) === 0) entries.splice(at, 1);
    else entries.splice(at, 1, [name, mutatedValue(old, values)]);
    // Own properties, also where a name means something else to the language.
    return Object.fromEntries(entries);
  }
  return values.of(ODD) ?? null;
}

/** JSON by name: a `__proto__` stands in the text as any other name. */
const ODD_TEXTS = [
  '"',
  '}',
  ']',
  ',',
  '\n',
  '\r\n',
  ';',
  '\t',
  '\ufeff',
  '\u0000',
  'NaN',
  '-',
  'e400',
  '9'.repeat(400),
  '{"__proto__":{"x":1}}',
  '['.repeat(2000),
  '{"a":'.repeat(500),
  '\\ud800',
  '"'.repeat(50),
];

export function mutatedText(text: string, values: SchemaValues): string {
  let mutated = text;
  for (let changes = 1 + values.below(3); changes > 0; changes -= 1) {
    const at = values.below(mutated.length + 1);
    const to = Math.min(mutated.length, at + values.below(12));
    const kind = values.below(5);
    if (kind === 0) mutated = mutated.slice(0, at);
    else if (kind === 1) mutated = mutated.slice(0, at) + mutated.slice(to);
    else if (kind === 2)
      mutated = mutated.slice(0, at) + (values.of(ODD_TEXTS) ?? '') + mutated.slice(to);
    else if (kind === 3) mutated = mutated.slice(0, to) + mutated.slice(at);
    else
      mutated =
        mutated.slice(0, at) +
        String.fromCharCode(values.below(values.below(2) === 0 ? 128 : 65_536)) +
        mutated.slice(at + 1);
  }
  return mutated;
}

/** Bits flipped, stretches overwritten, cut off or doubled. */
export function mutatedBytes(bytes: Uint8Array, values: SchemaValues): Uint8Array {
  const mutated = Uint8Array.from(bytes);
  for (let changes = 1 + values.below(6); changes > 0; changes -= 1) {
    const at = values.below(mutated.length);
    if (values.below(2) === 0) mutated[at] = (mutated[at] ?? 0) ^ (1 << values.below(8));
    else mutated.fill(values.below(256), at, at + values.below(64));
  }
  if (values.below(5) === 0) return mutated.subarray(0, values.below(mutated.length + 1));
  return values.below(8) === 0 ? Uint8Array.from([...mutated, ...mutated.slice(0, 100)]) : mutated;
}
