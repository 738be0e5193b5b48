/** Chooses a file of readings on this computer; it is looked at before anything is kept of it. */
import { useRef, useState } from 'preact/hooks';
import { panel } from '../parts/panels.ts';
import { chooseFile } from '../read-in/chosen-file.ts';
import { speech } from '../store/speech.ts';
import { type Failure, sayFailure } from '../words/say-failure.ts';

interface ReadInFileProps {
  /** Says as well what comes of it. */
  readonly explained: boolean;
}

export function ReadInFile({ explained }: ReadInFileProps) {
  const words = speech.value.wording.recordings;
  const input = useRef<HTMLInputElement>(null);
  const [wrong, setWrong] = useState<Failure | null>(null);
  const choose = async (field: HTMLInputElement) => {
    const file = field.files?.[0];
    if (file === undefined) return;
    const refused = await chooseFile(file);
    // Put right, the same file can be chosen again.
    field.value = '';
    setWrong(refused);
    if (refused === null) panel.value = 'read-in';
  };
  return (
    <div class="row">
      <button type="button" data-testid="read-in-file" onClick={() => input.current?.click()}>
        {words.readInFile}
      </button>
      <input
        ref={input}
        type="file"
        accept=".csv,.txt,.tsv,text/csv,text/plain"
        hidden
        data-testid="file-to-read-in"
        onChange={(event) => void choose(event.currentTarget)}
      />
      {explained && <span class="quiet">{words.readInHelp}</span>}
      {wrong !== null && (
        <p class="wrong" role="alert">
          {sayFailure(wrong, speech.value)}
        </p>
      )}
    </div>
  );
}
