/** What this screen may do: all on the laptop itself, elsewhere what it was paired for. */
import { computed, effect, signal } from '@preact/signals';
import { mayDo, type Role, type ThisScreen } from '../../protocol/sharing.ts';
import { askThisScreen } from '../connection/sharing-api.ts';
import type { Session } from './session.ts';

export const thisScreen = signal<ThisScreen>({ role: 'owner', name: '' });

export function may(role: Role): boolean {
  return mayDo(thisScreen.value.role, role);
}

/** Only over HTTPS is it anybody but the laptop. */
export function isElsewhere(): boolean {
  return window.location.protocol === 'https:';
}

/** @returns whether it has to be paired first */
export async function learnThisScreen(): Promise<boolean> {
  const answer = await askThisScreen();
  if (answer.ok) thisScreen.value = answer.value;
  // A page that was kept opens without the bridge; until it answers nothing is offered that it may refuse.
  else if (thisScreen.value.role === 'owner') thisScreen.value = { role: 'watch', name: '' };
  return !answer.ok && answer.code === 'not_paired';
}

/**
 * It may be unpaired at any time: each loss of the connection may mean that, and then nothing stays in sight. A page
 * that was kept learns what it may do once it is connected.
 */
export function keepKnowingThisScreen(session: Session): void {
  const tries = computed(() => session.connection.value.failedAttempts);
  effect(() => {
    if (tries.value === 0 && session.phase.value !== 'live') return;
    void learnThisScreen().then((isOut) => {
      if (isOut) window.location.reload();
    });
  });
}
