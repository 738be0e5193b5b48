/** The last thing that a person asked for and that did not work, in words; null when it did. */
import { signal } from '@preact/signals';
import type { Answer } from '../connection/bridge-api.ts';

export const notice = signal<string | null>(null);

/** Waits for an answer and shows its failure. */
export async function tell<T>(asked: Promise<Answer<T>>): Promise<T | null> {
  const answer = await asked;
  notice.value = answer.ok ? null : answer.message;
  return answer.ok ? answer.value : null;
}
