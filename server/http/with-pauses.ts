/** Between the parts of a long answer the bridge gets to its other work. */
import { setImmediate } from 'node:timers/promises';

export async function* withPauses(parts: Iterable<string>): AsyncGenerator<string> {
  for (const part of parts) {
    yield part;
    await setImmediate();
  }
}
