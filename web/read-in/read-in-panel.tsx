/** A file before it is read in: its first rows, how they are taken, and what would come of it. */
import { useMemo, useState } from 'preact/hooks';
import { importReadings } from '../connection/bridge-api.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import { choices } from '../store/choices.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { sayFailure } from '../words/say-failure.ts';
import { sayColumn, sayFaultyRow, sayFound, sayHowRead, sayReadIn } from '../words/say-read-in.ts';
import { type Choice, type Guess, isWhole } from './choice.ts';
import { ChoiceForm } from './choice-form.tsx';
import { chosenFile } from './chosen-file.ts';
import { FirstRows } from './first-rows.tsx';
import type { Found } from './found.ts';
import { guessChoice } from './guess.ts';
import { useFound } from './use-found.ts';

export function ReadInPanel({ session }: { readonly session: Session }) {
  const file = chosenFile.value;
  if (file === null) return null;
  return (
    <Panel title={speech.value.wording.readIn.title} testId="read-in-panel">
      <Preview key={file.name} session={session} name={file.name} text={file.text} />
    </Panel>
  );
}

interface PreviewProps {
  readonly session: Session;
  readonly name: string;
  readonly text: string;
}

function Preview({ session, name, text }: PreviewProps) {
  const words = speech.value.wording.readIn;
  const { temperature } = choices.value;
  const [changed, setChanged] = useState<Partial<Choice>>({});
  const [isLeavingOut, setLeavingOut] = useState(false);
  const [busy, setBusy] = useState(false);
  const [wrong, setWrong] = useState<string | null>(null);
  // Another separator makes another table: what was guessed of the columns is guessed anew.
  const guess = useMemo(
    () => guessChoice(text, temperature, changed.separator),
    [text, changed.separator],
  );
  const choice = useMemo(() => ({ ...guess, ...changed }), [guess, changed]);
  const found = useFound(text, guess, choice);
  const choose = (change: Partial<Choice>) => {
    setLeavingOut(false);
    setWrong(null);
    setChanged(change.separator === undefined ? { ...changed, ...change } : change);
  };
  const readIn = async (of: Found) => {
    setBusy(true);
    const answer = await importReadings(name, of.csv(), howRead(guess, choice, of));
    setBusy(false);
    if (!answer.ok) {
      setWrong(sayFailure(answer, speech.peek()));
      return;
    }
    chosenFile.value = null;
    session.learn(answer.value);
    session.open(answer.value.id, true);
    panel.value = null;
  };
  const isReady = found !== null && found.readings > 0 && (found.faulty === 0 || isLeavingOut);
  return (
    <>
      <h2>{name}</h2>
      <p class="quiet">{words.help}</p>
      <FirstRows text={text} guess={guess} choice={choice} />
      <ChoiceForm guess={guess} choice={choice} choose={choose} />
      <p role="status" class="found" data-testid="found">
        {found !== null && sayFound(found, speech.value)}
        {found === null && (isWhole(choice) ? words.reading : words.unsaid)}
      </p>
      {found !== null && found.faulty > 0 && found.readings > 0 && (
        <>
          <Faults found={found} />
          <label class="check">
            <input
              type="checkbox"
              checked={isLeavingOut}
              onChange={(event) => setLeavingOut(event.currentTarget.checked)}
            />
            {words.leaveOut}
          </label>
        </>
      )}
      {found !== null && found.readings === 0 && <Faults found={found} />}
      {wrong !== null && (
        <p class="wrong" role="alert">
          {wrong}
        </p>
      )}
      <div class="row">
        <button
          type="button"
          class="urgent"
          data-testid="read-in"
          disabled={busy || !isReady}
          onClick={() => found !== null && void readIn(found)}
        >
          {busy ? words.readingIn : sayReadIn(found?.readings ?? 0, speech.value)}
        </button>
        <button type="button" onClick={() => (panel.value = 'recordings')}>
          {words.back}
        </button>
      </div>
    </>
  );
}

function Faults({ found: { faults, faulty } }: { readonly found: Found }) {
  return (
    <ul class="cautions" data-testid="read-in-wrong">
      {faults.map((row) => (
        <li key={row.lineNumber}>{sayFaultyRow(row, speech.value)}</li>
      ))}
      {faulty > faults.length && (
        <li>{speech.value.wording.readIn.furtherFaults({ count: faulty - faults.length })}</li>
      )}
    </ul>
  );
}

/** Of a file in the one format that needs no choices, read whole, there is nothing to note. */
function howRead({ headings }: Guess, choice: Choice, { faulty, faults }: Found): string {
  if (!isWhole(choice)) return '';
  const { columns, timeAs, pressureIn } = choice;
  const spoken = speech.peek();
  const time = sayColumn(headings[columns.time], columns.time, spoken);
  const pressure = sayColumn(headings[columns.pressure], columns.pressure, spoken);
  const isOurs = time === 'elapsed_s' && timeAs === 'seconds' && pressure === 'pressure_pa';
  if (isOurs && pressureIn === 'Pa' && faulty === 0) return '';
  const lines = faults.map(({ lineNumber }) => lineNumber);
  return sayHowRead(
    {
      time,
      timeAs,
      pressure,
      pressureIn: spoken.wording.amounts.units[pressureIn],
      faulty,
      lines,
    },
    spoken,
  );
}
