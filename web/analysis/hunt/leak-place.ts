/** Which of the sections has the leak, by holds of each of them. */
import type { SeenPart } from '../seen/seen-part.ts';
import type { StubFinding } from '../seen/stub-baseline.ts';

export type LeakPlace =
  /** No section has been held by itself yet. */
  | { readonly kind: 'no_sections' }
  | { readonly kind: 'found'; readonly name: string; readonly chance: number }
  | { readonly kind: 'several'; readonly names: readonly string[]; readonly chance: number }
  /** In none of those that were held: in what joins them, in what was not held, or past a valve. */
  | { readonly kind: 'none_of_them'; readonly chance: number }
  /** Who is likeliest so far; null where all are alike. */
  | { readonly kind: 'undecided'; readonly name: string | null; readonly chance: number }
  /** Everything rises, and nobody has seen the sensor alone: its own joint would do that. */
  | { readonly kind: 'sensor_first' };

interface HeldPart {
  readonly part: SeenPart;
  readonly leakChance: number | null;
}

/** From here on it is said. A setting of ours. */
const SAID = 0.9;

/** @param holds in order of time; of each section the latest counts */
export function leakPlace(holds: readonly HeldPart[], stub: StubFinding): LeakPlace {
  const latest = new Map<string, number>();
  for (const { part, leakChance } of holds) {
    if (part.kind === 'section' && leakChance !== null) latest.set(part.name, leakChance);
  }
  const chances = [...latest].map(([name, chance]) => ({ name, chance }));
  if (chances.length === 0) return { kind: 'no_sections' };
  const none = chances.reduce((all, { chance }) => all * (1 - chance), 1);
  const only = chances.map(({ name, chance }, at) => ({
    name,
    chance: chances.reduce((all, other, i) => (i === at ? all : all * (1 - other.chance)), chance),
  }));
  const best = only.reduce((a, b) => (b.chance > a.chance ? b : a));
  const several = 1 - none - only.reduce((sum, { chance }) => sum + chance, 0);
  const mayBeSensor = stub !== 'excluded';
  if (several > SAID) {
    const names = chances.filter(({ chance }) => chance > SAID).map(({ name }) => name);
    return mayBeSensor && names.length === chances.length
      ? { kind: 'sensor_first' }
      : { kind: 'several', names, chance: several };
  }
  if (best.chance > SAID) {
    return mayBeSensor && chances.length === 1
      ? { kind: 'sensor_first' }
      : { kind: 'found', ...best };
  }
  if (none > SAID) return { kind: 'none_of_them', chance: none };
  const others = only.filter((one) => one !== best);
  const isAhead = others.every(({ chance }) => best.chance > 2 * chance);
  return { kind: 'undecided', name: isAhead ? best.name : null, chance: best.chance };
}
