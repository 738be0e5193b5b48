/** That a schema takes an example as it stands, and nothing that has a field more, a field less or nonsense in one. */
import { expect } from 'vitest';
import type { z } from 'zod';

type Path = readonly (string | number)[];

/** Places of fields as in 'sensors.*.label'; a star is any place in a list. */
interface Free {
  /** Whatever else is there is passed over. */
  readonly loose?: readonly string[];
  /** May be left out. */
  readonly mayLack?: readonly string[];
}

export function expectExactShape(schema: z.ZodType, example: unknown, free: Free = {}): void {
  expect(schema.parse(example)).toEqual(example);
  const takes = (changed: unknown) => schema.safeParse(changed).success;
  for (const [path, fields] of objectsIn(example)) {
    const place = placeOf(path);
    const more = withObject(example, path, { ...fields, notAField: 1 });
    expect(takes(more), `${place} with another field`).toBe(free.loose?.includes(place) ?? false);
    for (const [field, value] of Object.entries(fields)) {
      const at = place === '' ? field : `${place}.${field}`;
      const less = Object.fromEntries(Object.entries(fields).filter(([name]) => name !== field));
      const isTaken = takes(withObject(example, path, less));
      expect(isTaken, `without ${at}`).toBe(free.mayLack?.includes(at) ?? false);
      const nonsense = withObject(example, path, { ...fields, [field]: nonsenseFor(value) });
      expect(takes(nonsense), `${at} as nonsense`).toBe(false);
    }
  }
}

/** Each of these words is taken in that field, and no other. */
export function expectWords(
  words: readonly string[],
  taken: (word: string) => { readonly success: boolean },
): void {
  for (const word of words) expect(taken(word).success, word).toBe(true);
  for (const other of ['', 'nonsense']) expect(taken(other).success, other).toBe(false);
}

function nonsenseFor(value: unknown): unknown {
  return typeof value === 'boolean' ? 'true' : value === null ? { notAField: 1 } : true;
}

function* objectsIn(value: unknown, path: Path = []): Generator<[Path, object]> {
  if (typeof value !== 'object' || value === null) return;
  if (!Array.isArray(value)) yield [path, value];
  for (const [key, inner] of Object.entries(value)) {
    yield* objectsIn(inner, [...path, Array.isArray(value) ? Number(key) : key]);
  }
}

function placeOf(path: Path): string {
  return path.map((part) => (typeof part === 'number' ? '*' : part)).join('.');
}

function withObject(whole: unknown, path: Path, instead: object): unknown {
  const [first, ...rest] = path;
  if (first === undefined) return instead;
  if (Array.isArray(whole)) {
    return whole.map((one: unknown, at) => (at === first ? withObject(one, rest, instead) : one));
  }
  if (typeof whole !== 'object' || whole === null) return whole;
  const inner: unknown = Object.entries(whole).find(([name]) => name === first)?.[1];
  return { ...whole, [first]: withObject(inner, rest, instead) };
}
