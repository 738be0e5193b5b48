/** A moment of a recording, in data time, as its people would say it. */
import type { Recording } from '../../protocol/recording.ts';
import { sayMoment } from '../words/say-duration.ts';
import type { Speech } from '../words/speech.ts';
import { clockWords } from './clock-words.ts';

export function momentWords(
  { origin, startedAtMs }: Pick<Recording, 'origin' | 'startedAtMs'>,
  atS: number,
  speech: Speech,
): string {
  // The clock on the wall has nothing to do with a rehearsal's or a file's time.
  if (origin === 'rehearsal' || origin === 'import') return sayMoment(atS);
  return clockWords(startedAtMs + atS * 1000, speech);
}
