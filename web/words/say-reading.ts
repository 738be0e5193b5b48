/** What stands under the number, where it isn't what is measured now. */
import { sayTypedAt } from './say-typed-in.ts';

export const NO_READING = 'No reading yet';

/** @param at the time of day of the reading, or since when it isn't live; already written out */
export function sayNotNow(
  kind: 'live' | 'paused' | 'ended' | 'catching_up' | 'typed_in' | 'stale',
  at: string,
): string {
  switch (kind) {
    case 'typed_in':
      return sayTypedAt(at);
    case 'stale':
      return `not live since ${at}`;
    case 'ended':
      return 'the last reading';
    case 'catching_up':
      return 'catching up';
    case 'live':
    case 'paused':
      return '';
  }
}
