/**
 * Whether an exception is what the host libraries make of a packet that breaks the rules: they read
 * beyond its end, within the handler of the adapter's data, and throw out of it.
 *
 * That packet is lost, as it should be, and the next is read as if nothing had been: so one peer that
 * sends nonsense must not cost everybody else their connection. Whatever waits for what the packet
 * might have been has its deadline.
 */
export function isMalformedPacket(error: unknown): boolean {
  if (!(error instanceof RangeError || error instanceof TypeError)) return false;
  const frames = (error.stack ?? '').split('\n').filter((line) => /^\s+at /u.test(line));
  // Thrown by the library's own lines, or by what it read a buffer with: not by ours, which it calls.
  const thrower = frames.find((frame) => !/node:/u.test(frame)) ?? '';
  const isTheirs = /[\\/]noble[\\/]lib[\\/]/u.test(thrower);
  return isTheirs && frames.some((frame) => frame.includes('onSocketData'));
}

/** So many in a row are no longer worth a line each. */
const LOGGED = 5;

/** Counts them, and says so now and then. */
export class MalformedPackets {
  readonly #log: (text: string) => void;
  #count = 0;

  constructor(log: (text: string) => void) {
    this.#log = log;
  }

  note(error: unknown): void {
    this.#count += 1;
    const isWorthIt = this.#count <= LOGGED || Number.isInteger(Math.log10(this.#count));
    if (!isWorthIt) return;
    const what = error instanceof Error ? error.message : String(error);
    this.#log(`a malformed packet was dropped, the ${this.#count}. so far: ${what}`);
  }
}
