/** Walks through conclusions, whatever they come to hold, and names what no conclusion may be. */

/** Every number in a value, however deep. */
export function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

/** Where a number is none, an interval has its ends the wrong way round, or a weight is no share. */
export function faultsIn(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path}: ${value}`];
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
