/**
 * What the libraries hand to a characteristic's callbacks. One puts the connection first, the other
 * knows of one connection only and leaves it out; the rest is the same, and is found by its kind.
 */

type Answer = (result: number, data?: Buffer) => void;
type Update = (data: Buffer) => void;

/** (connection?, offset, callback) */
export function readArguments(values: readonly unknown[]): { offset: number; answer: Answer } {
  const [offset] = values.filter((value) => typeof value === 'number').slice(-1);
  return { offset: offset ?? 0, answer: lastFunction(values) };
}

/** (connection?, data, offset, withoutResponse, callback) */
export function writeArguments(values: readonly unknown[]): { data: Uint8Array; answer: Answer } {
  const data = values.find((value) => value instanceof Uint8Array);
  return { data: data ?? new Uint8Array(0), answer: lastFunction(values) };
}

/** (connection?, maxValueSize, updateValueCallback) */
export function subscribeArguments(values: readonly unknown[]): Update {
  return lastFunction(values);
}

function lastFunction(values: readonly unknown[]): (...values: unknown[]) => void {
  const last = values.at(-1);
  if (typeof last !== 'function') throw new TypeError('the library gave no way to answer');
  return (...given) => {
    Reflect.apply(last, undefined, given);
  };
}
