/** Takes in a file that was chosen, each kind in its way. */
import { importWhole, restoreBackup } from '../connection/bridge-api.ts';
import { panel } from '../parts/panels.ts';
import { chooseRows, kindOf, tooLarge } from '../read-in/chosen-file.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { sayFailure } from '../words/say-failure.ts';
import { sayRestored } from '../words/say-restored.ts';

export interface TakenIn {
  readonly isWrong: boolean;
  readonly text: string;
}

/** @returns what there is to say of it; null: what comes of it is seen */
export async function takeIn(file: File, session: Session): Promise<TakenIn | null> {
  const kind = await kindOf(file);
  const refused = tooLarge(file, kind);
  if (refused !== null) return wrong(sayFailure(refused, speech.peek()));
  if (kind === 'rows') {
    await chooseRows(file);
    panel.value = 'read-in';
    return null;
  }
  if (kind === 'backup') {
    const answer = await restoreBackup(file);
    if (!answer.ok) return wrong(sayFailure(answer, speech.peek()));
    return { isWrong: false, text: sayRestored(answer.value.recordings, speech.peek()) };
  }
  const answer = await importWhole(file, kind === 'whole_json' ? 'application/json' : 'text/csv');
  if (!answer.ok) return wrong(sayFailure(answer, speech.peek()));
  session.learn(answer.value);
  session.open(answer.value.id, true);
  panel.value = null;
  return null;
}

function wrong(text: string): TakenIn {
  return { isWrong: true, text };
}
