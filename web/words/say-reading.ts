/** What stands under the number, where it isn't what is measured now. */
import type { SensorShutOff } from '../analysis/closing/closed-up.ts';
import type { Speech } from './speech.ts';

/** @param at the time of day of the reading, or since when it isn't live; already written out */
export function sayNotNow(
  kind: 'live' | 'paused' | 'ended' | 'catching_up' | 'typed_in' | 'stale' | 'not_kept',
  at: string,
  { wording }: Speech,
): string {
  const words = wording.reading;
  switch (kind) {
    case 'typed_in':
      return words.typedIn({ at });
    case 'stale':
      return words.notLive({ since: at });
    case 'not_kept':
      return words.notKept({ since: at });
    case 'ended':
      return words.last;
    case 'catching_up':
      return words.catchingUp;
    case 'live':
    case 'paused':
      return '';
  }
}

/** @param at up to when it was judged, or since when it sees nothing of the system; already written out */
export function sayShutOff(
  { judgedUpToS }: SensorShutOff,
  at: string,
  { wording }: Speech,
): string {
  const words = wording.reading;
  return judgedUpToS === null ? words.shutOff({ at }) : words.judgedUpTo({ at });
}
