/**
 * What this browser remembers, under one prefix, each value parsed on its way in. A browser that
 * refuses to store anything still works: it forgets when the page is closed.
 */
import type { z } from 'zod';

const PREFIX = 'ebbline.';

/** The latest so many recordings are remembered of; a setting of ours. */
const MOST_RECORDINGS = 60;

/**
 * Forgets what was remembered of the recordings that began earliest: what stands under keys that begin so
 * and go on with the moment of its beginning, as '1767950000000.12'.
 */
export function forgetEarliest(beginning: string): void {
  const startedAtMs = (key: string) =>
    Number.parseInt(key.slice(PREFIX.length + beginning.length), 10);
  try {
    const keys = Object.keys(localStorage).filter((key) => key.startsWith(PREFIX + beginning));
    keys.sort((a, b) => startedAtMs(b) - startedAtMs(a));
    for (const key of keys.slice(MOST_RECORDINGS)) localStorage.removeItem(key);
  } catch {
    // Nothing is stored there.
  }
}

/** All but what is chosen of language, units and look: on a screen that is let in no longer nothing of a job stays. */
export function forgetAllBut(kept: readonly string[]): void {
  try {
    const isKept = (key: string) => kept.some((one) => key === PREFIX + one);
    const keys = Object.keys(localStorage).filter((key) => key.startsWith(PREFIX));
    for (const key of keys) if (!isKept(key)) localStorage.removeItem(key);
    sessionStorage.clear();
  } catch {
    // Nothing is stored there.
  }
}

/** What could not be stored. Without it an alert would be due again each time it is asked for. */
const unstored = new Map<string, string>();
const unstoredHere = new Map<string, string>();

export function recall<T>(key: string, schema: z.ZodType<T>, otherwise: T): T {
  return recallFrom(() => localStorage, unstored, key, schema, otherwise);
}

export function remember(key: string, value: unknown): void {
  rememberIn(() => localStorage, unstored, key, value);
}

/**
 * Called when another window of this browser has remembered something under a key.
 * @returns ends it
 */
export function onRememberedElsewhere(run: (key: string) => void): () => void {
  const hear = ({ key }: StorageEvent) => {
    if (key?.startsWith(PREFIX) === true) run(key.slice(PREFIX.length));
  };
  window.addEventListener('storage', hear);
  return () => window.removeEventListener('storage', hear);
}

/** Of this window alone, over a reload: what another window shows is its own affair. */
export function recallHere<T>(key: string, schema: z.ZodType<T>, otherwise: T): T {
  return recallFrom(() => sessionStorage, unstoredHere, key, schema, otherwise);
}

export function rememberHere(key: string, value: unknown): void {
  rememberIn(() => sessionStorage, unstoredHere, key, value);
}

/** Where storage is forbidden, even to ask for it fails. */
type Store = () => Storage;

function recallFrom<T>(
  store: Store,
  unkept: ReadonlyMap<string, string>,
  key: string,
  schema: z.ZodType<T>,
  otherwise: T,
): T {
  try {
    const text = unkept.get(key) ?? store().getItem(PREFIX + key);
    if (text === null) return otherwise;
    const parsed = schema.safeParse(JSON.parse(text));
    return parsed.success ? parsed.data : otherwise;
  } catch {
    return otherwise;
  }
}

function rememberIn(store: Store, unkept: Map<string, string>, key: string, value: unknown): void {
  const text = JSON.stringify(value);
  try {
    store().setItem(PREFIX + key, text);
    unkept.delete(key);
  } catch {
    // Storage is full or forbidden.
    unkept.set(key, text);
  }
}
