/** Walks through conclusions, whatever they come to hold, and names what no conclusion may be. */

/** Every number in a value, however deep. */
export function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

/**
 * Finite is not enough: nobody can do anything with a pressure of 1e300 Pa. Times, pressures and rates of
 * even the oddest record lie well below this.
 */
const LARGEST = 1e12;

/** Numbers that are none or absurd, intervals with their ends the wrong way round, negative amounts. */
export function faultsIn(value: unknown, path = ''): string[] {
  if (typeof value === 'number') {
    return Math.abs(value) <= LARGEST ? [] : [`${path}: ${value}`];
  }
  if (typeof value !== 'object' || value === null) return [];
  const own = [
    ...disorder(value, ['low', 'estimate', 'high'], path),
    ...disorder(value, ['p10S', 'p50S', 'p90S'], path),
    ...disorder(value, ['lowPa', 'midPa', 'highPa'], path),
    ...below(
      value,
      ['p10S', 'lowPa', 'heldS', 'moreS', 'changeoverS', 'weight', 'pressurePa'],
      path,
    ),
  ];
  const inner = Object.entries(value).flatMap(([key, part]) => faultsIn(part, `${path}.${key}`));
  return [...own, ...inner];
}

/** Fields that must not fall from one to the next; one that is absent or null is passed over. */
function disorder(value: object, names: readonly string[], path: string): string[] {
  const entries = new Map<string, unknown>(Object.entries(value));
  const found = names.map((name) => entries.get(name)).filter((one) => typeof one === 'number');
  const isOrdered = found.every((one, i) => i === 0 || (found[i - 1] ?? -Infinity) <= one);
  return isOrdered ? [] : [`${path}: ${names.join(' ≤ ')} is ${found.join(', ')}`];
}

function below(value: object, names: readonly string[], path: string): string[] {
  return Object.entries(value).flatMap(([name, one]) =>
    names.includes(name) && typeof one === 'number' && one < 0 ? [`${path}.${name}: ${one}`] : [],
  );
}
