/** What a stretch that is over has come to, found once: no reading but a late one, and no other fact, changes it. */
import type { History } from './history.ts';

interface Kept<T> {
  readonly facts: readonly unknown[];
  readonly lateReadings: number;
  readonly found: Map<string, T>;
}

/** So many of a recording are kept: a day's evacuations. */
const MOST = 400;

/**
 * @returns what finds it, or gives it back: as long as no reading is late, and the very same facts go in
 */
export function keptPast<T>() {
  const stores = new WeakMap<History, Kept<T>>();
  return (
    history: History,
    facts: readonly unknown[],
    { fromS, toS }: { readonly fromS: number; readonly toS: number },
    find: () => T,
  ): T => {
    const { lastS, lateReadings } = history;
    if (lastS === null || lastS <= toS) return find();
    const known = stores.get(history);
    const isValid =
      known?.lateReadings === lateReadings && facts.every((fact, at) => fact === known.facts[at]);
    const kept = isValid ? known : { facts, lateReadings, found: new Map<string, T>() };
    stores.set(history, kept);
    const key = `${fromS} ${toS}`;
    const before = kept.found.get(key);
    if (before !== undefined) return before;
    const found = find();
    kept.found.set(key, found);
    const [oldest] = kept.found.keys();
    if (kept.found.size > MOST && oldest !== undefined) kept.found.delete(oldest);
    return found;
  };
}
