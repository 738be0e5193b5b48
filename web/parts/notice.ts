/** The last thing that a person asked for and that did not work; null when it did. */
import { signal } from '@preact/signals';
import type { Answer } from '../connection/bridge-api.ts';
import type { Failure } from '../words/say-failure.ts';

export const notice = signal<Failure | null>(null);

/** Waits for an answer and shows its failure. */
export async function tell<T>(asked: Promise<Answer<T>>): Promise<T | null> {
  const answer = await asked;
  notice.value = answer.ok ? null : answer;
  return answer.ok ? answer.value : null;
}
