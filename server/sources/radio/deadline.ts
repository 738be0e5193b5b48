/** The one way to wait in the radio: for an event, not for ever, and not past a disconnect. */

/** As Node's EventEmitter, for the little that is needed of it. */
export interface Emitter {
  on(event: string, listener: (...values: unknown[]) => void): unknown;
  removeListener(event: string, listener: (...values: unknown[]) => void): unknown;
}

export interface Wait<T> {
  /** What is waited for, for the message of a failure. */
  readonly what: string;
  readonly emitter: Emitter;
  readonly event: string;
  readonly limitMs: number;
  /** Aborted when the answer can't come any more; its reason becomes the failure. */
  readonly signal: AbortSignal;
  /** Asks for what is waited for; called once the listener is in place. */
  readonly begin: () => void;
  /** What the event brings, or undefined where it isn't the one; what it throws is the failure. */
  readonly take: (...values: unknown[]) => T | undefined;
}

/** Nothing came in time. */
export class DeadlineError extends Error {
  override readonly name = 'DeadlineError';
}

/**
 * Waits for an event and leaves nothing behind, whether it came, failed, was cut short or was late.
 * @throws DeadlineError after `limitMs`
 */
export function eventWithin<T>(wait: Wait<T>): Promise<T> {
  const { what, emitter, event, limitMs, signal, begin, take } = wait;
  return new Promise<T>((resolve, reject) => {
    const settle = (finish: () => void): void => {
      clearTimeout(timer);
      emitter.removeListener(event, onEvent);
      signal.removeEventListener('abort', onAbort);
      finish();
    };
    const onEvent = (...values: unknown[]): void => {
      try {
        const taken = take(...values);
        if (taken !== undefined) settle(() => resolve(taken));
      } catch (error) {
        settle(() => reject(asError(error)));
      }
    };
    const onAbort = (): void => settle(() => reject(asError(signal.reason)));
    const onDeadline = (): void => {
      settle(() => reject(new DeadlineError(`${what}: nothing came within ${limitMs} ms`)));
    };
    const timer = setTimeout(onDeadline, limitMs);
    emitter.on(event, onEvent);
    signal.addEventListener('abort', onAbort);
    try {
      if (signal.aborted) onAbort();
      else begin();
    } catch (error) {
      settle(() => reject(asError(error)));
    }
  });
}

/** @throws the signal's reason where it is aborted meanwhile */
export function pause(ms: number, signal: AbortSignal): Promise<void> {
  return new Promise((resolve, reject) => {
    const settle = (finish: () => void): void => {
      clearTimeout(timer);
      signal.removeEventListener('abort', onAbort);
      finish();
    };
    const onAbort = (): void => settle(() => reject(asError(signal.reason)));
    const timer = setTimeout(() => settle(resolve), ms);
    signal.addEventListener('abort', onAbort);
    if (signal.aborted) onAbort();
  });
}

export function asError(value: unknown): Error {
  return value instanceof Error ? value : new Error(String(value));
}
