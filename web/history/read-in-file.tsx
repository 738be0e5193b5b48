/** Chooses a file on this computer: a logger's, which is looked at before anything is kept of it, or one that was exported. */
import { useRef, useState } from 'preact/hooks';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { takeIn, type TakenIn } from './take-in.ts';

interface ReadInFileProps {
  /** Says as well what comes of it. */
  readonly explained: boolean;
  readonly session: Session;
}

export function ReadInFile({ explained, session }: ReadInFileProps) {
  const words = speech.value.wording.recordings;
  const input = useRef<HTMLInputElement>(null);
  const [said, setSaid] = useState<TakenIn | null>(null);
  const [busy, setBusy] = useState(false);
  const choose = async (field: HTMLInputElement) => {
    const file = field.files?.[0];
    if (file === undefined) return;
    setSaid(null);
    setBusy(true);
    const found = await takeIn(file, session);
    setBusy(false);
    // Put right, the same file can be chosen again.
    field.value = '';
    setSaid(found);
  };
  return (
    <div class="row">
      <button
        type="button"
        data-testid="read-in-file"
        disabled={busy}
        onClick={() => input.current?.click()}
      >
        {busy ? words.takingIn : words.readInFile}
      </button>
      <input
        ref={input}
        type="file"
        accept=".csv,.txt,.tsv,.json,.sqlite,text/csv,text/plain,application/json"
        hidden
        data-testid="file-to-read-in"
        onChange={(event) => void choose(event.currentTarget)}
      />
      {explained && <span class="quiet">{words.readInHelp}</span>}
      {said !== null && (
        <p class={said.isWrong ? 'wrong' : 'found'} role={said.isWrong ? 'alert' : 'status'}>
          {said.text}
        </p>
      )}
    </div>
  );
}
