/** One tap takes a prepared sheet over, while nobody has said yet which job this is. */
import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { panel } from '../parts/panels.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { may } from '../store/this-screen.ts';
import { sayLeftOut } from '../words/say-job.ts';
import { sayPrepared } from '../words/say-prepared.ts';
import { leftOut, lookForPrepared, preparedSheets, takeOver } from './prepared-list.ts';

/** The recording for which somebody has said that none of them is meant. */
const putAsideIn = signal<number | null>(null);

export function PreparedStrip({ session }: { readonly session: Session }) {
  const words = speech.value.wording.prepared;
  const followed = session.followed.value;
  const recording = session.recording.value;
  const id = recording?.id ?? null;
  const isLive = session.connection.value.phase === 'live';
  useEffect(() => {
    if (isLive) void lookForPrepared();
  }, [isLive, id]);
  const left = leftOut.value;
  const stays =
    left === null || left.recordingId !== id ? '' : sayLeftOut(left.fields, speech.value);
  if (stays !== '') {
    return (
      <p class="elsewhere" data-testid="left-out" role="status">
        {stays}{' '}
        <button type="button" onClick={() => (leftOut.value = null)}>
          {speech.value.wording.connection.close}
        </button>
      </p>
    );
  }
  const [sheet, ...others] = preparedSheets.value;
  const isJob = recording?.origin === 'sensor' || recording?.origin === 'typed_in';
  if (followed === null || recording === null || sheet === undefined) return null;
  const { site, equipment } = followed.sheet.value;
  const isSaid = site !== '' || equipment !== '';
  if (!may('assist') || !isJob || !recording.open || isSaid || putAsideIn.value === id) return null;
  return (
    <p class="elsewhere" data-testid="prepared-strip">
      {words.waiting({ what: sayPrepared(sheet, speech.value) })}{' '}
      <button
        type="button"
        data-testid="take-over"
        onClick={() => void takeOver(sheet, followed, recording)}
      >
        {words.takeOver}
      </button>
      {others.length > 0 && (
        <button type="button" onClick={() => (panel.value = 'prepared')}>
          {words.others({ count: others.length })}
        </button>
      )}
      <button type="button" onClick={() => (putAsideIn.value = id)}>
        {words.notThis}
      </button>
    </p>
  );
}
