/** What a trainee can say was the matter. */
import type { RehearsalCause } from '../../protocol/api.ts';
import type { Speech } from './speech.ts';

export function nameCause(cause: RehearsalCause, { wording }: Speech): string {
  return wording.rehearsalCauses[cause].name;
}

/** Within a sentence: only the first letter is a capital there. */
export function causeInSentence(cause: RehearsalCause, speech: Speech): string {
  const name = nameCause(cause, speech);
  return name.charAt(0).toLowerCase() + name.slice(1);
}
