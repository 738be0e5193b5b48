/** Has the cause revealed and shows what it was. Ends the rehearsal. */
import type { RevealWish } from '../../protocol/api.ts';
import type { Recording } from '../../protocol/recording.ts';
import { revealRehearsal } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { panel } from '../parts/panels.ts';
import { keepRehearsed } from '../store/rehearsed.ts';

export async function unveil(recording: Recording, wish: RevealWish): Promise<void> {
  const reveal = await tell(revealRehearsal(wish));
  if (reveal !== null) keepRehearsed(recording, { reveal });
  panel.value = reveal === null ? null : 'reveal';
}
