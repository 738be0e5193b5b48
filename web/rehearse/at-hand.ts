/** The rehearsal at hand, as far as this page has a part in it: forgotten when the page is reloaded. */
import { signal } from '@preact/signals';
import type { Call, Reveal, StartRehearsal } from '../../protocol/api.ts';
import type { Recording } from '../../protocol/recording.ts';
import { startRehearsal } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { panel } from '../parts/panels.ts';
import type { Session } from '../store/session.ts';

export interface AtHand {
  readonly recordingId: number;
  /** How it was begun, and is begun again; null for one that was not begun on this page. */
  readonly start: StartRehearsal | null;
  readonly call: Call | null;
  readonly reveal: Reveal | null;
}

const latest = signal<AtHand | null>(null);

export function atHand({ id }: Pick<Recording, 'id'>): AtHand {
  const known = latest.value;
  return known?.recordingId === id
    ? known
    : { recordingId: id, start: null, call: null, reveal: null };
}

export function learn(recording: Recording, more: Partial<Pick<AtHand, 'call' | 'reveal'>>): void {
  latest.value = { ...atHand(recording), ...more };
}

/** Begins one and shows it; ends the one that runs. */
export async function begin(session: Session, start: StartRehearsal): Promise<void> {
  const recording = await tell(startRehearsal(start));
  if (recording === null) return;
  latest.value = { recordingId: recording.id, start, call: null, reveal: null };
  session.learn(recording);
  session.open(recording.id, false);
  panel.value = null;
}
