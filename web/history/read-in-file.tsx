/** A file of readings, from this computer into the record. */
import { useRef, useState } from 'preact/hooks';
import { importFile } from '../connection/bridge-api.ts';
import { panel } from '../parts/panels.ts';
import type { Session } from '../store/session.ts';
import { READ_IN_FILE, READ_IN_HELP, READING_FILE_IN } from '../words/say-origin.ts';

export function ReadInFile({ session }: { readonly session: Session }) {
  const input = useRef<HTMLInputElement>(null);
  const [busy, setBusy] = useState(false);
  const [wrong, setWrong] = useState<string | null>(null);
  const read = async (field: HTMLInputElement) => {
    const file = field.files?.[0];
    if (file === undefined) return;
    setBusy(true);
    setWrong(null);
    const answer = await importFile(file);
    setBusy(false);
    // Put right, the same file can be chosen again.
    field.value = '';
    if (!answer.ok) {
      setWrong(answer.message);
      return;
    }
    session.learn(answer.value);
    session.open(answer.value.id, true);
    panel.value = null;
  };
  return (
    <div class="row">
      <button
        type="button"
        data-testid="read-in-file"
        disabled={busy}
        onClick={() => input.current?.click()}
      >
        {busy ? READING_FILE_IN : READ_IN_FILE}
      </button>
      <input
        ref={input}
        type="file"
        accept=".csv,text/csv"
        hidden
        data-testid="file-to-read-in"
        onChange={(event) => void read(event.currentTarget)}
      />
      <span class="quiet">{READ_IN_HELP}</span>
      {wrong !== null && (
        <p class="wrong" role="alert" data-testid="read-in-wrong">
          {wrong}
        </p>
      )}
    </div>
  );
}
