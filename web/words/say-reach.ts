/** How an alert stands in the list, and how sounds stand in their settings. */
import type { Speech } from './speech.ts';

export function sayAlertState(
  state: 'open' | 'seen' | 'replaced' | 'over',
  seenAt: string | null,
  { wording }: Speech,
): string {
  const words = wording.alerts;
  return state === 'seen' && seenAt !== null ? words.seenAt({ at: seenAt }) : words.states[state];
}

/** Empty where there is nothing to be said. */
export function saySoundState(
  state: 'unknown' | 'blocked' | 'ready' | 'none',
  { wording }: Speech,
): string {
  if (state === 'blocked') return wording.reach.blocked;
  return state === 'none' ? wording.reach.noSound : '';
}

export function sayVolume(volume: number): string {
  return `${Math.round(volume * 100)}\u00a0%`;
}
