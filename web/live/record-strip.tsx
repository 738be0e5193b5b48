/** Says on every screen that readings are not being kept, for as long as that is so; or what became of the record. */
import { signal } from '@preact/signals';
import type { RecordState } from '../../protocol/record-state.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { sayRecord } from '../words/say-record.ts';

/** The folder of damaged files that somebody has read of: that is over, all else is not. */
const readOf = signal('');

export function RecordStrip({ session }: { readonly session: Session }) {
  const state = session.record.value;
  const words = sayRecord(state, speech.value);
  if (words === null || isRead(state)) return null;
  return (
    <div class="notice" data-testid="record-state" data-kind={state.kind}>
      <div>
        <span role="alert">
          <strong>{words.meaning}</strong> {words.remedy}
        </span>{' '}
        {/* Counted on each second: not read out each time. */}
        <span>{words.detail}</span>
      </div>
      {state.kind === 'salvaged' && (
        <button type="button" onClick={() => (readOf.value = state.folder)}>
          {speech.value.wording.connection.close}
        </button>
      )}
    </div>
  );
}

function isRead(state: RecordState): boolean {
  return state.kind === 'salvaged' && state.folder === readOf.value;
}
