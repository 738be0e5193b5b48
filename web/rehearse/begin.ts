/** Begins a rehearsal and shows it. */
import type { StartRehearsal } from '../../protocol/api.ts';
import { startRehearsal } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { panel } from '../parts/panels.ts';
import { keepRehearsed } from '../store/rehearsed.ts';
import type { Session } from '../store/session.ts';

export async function begin(session: Session, wish: StartRehearsal): Promise<void> {
  const recording = await tell(startRehearsal(wish));
  // Why it could not begin stands on the page, which a panel would hide.
  panel.value = null;
  if (recording === null) return;
  keepRehearsed(recording, { wish, call: null, reveal: null });
  session.learn(recording);
  session.open(recording.id, false);
}
