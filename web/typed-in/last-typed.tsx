/** The last few numbers that were typed, and putting a slip right. */
import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { Recording } from '../../protocol/recording.ts';
import { correctTyped } from '../connection/bridge-api.ts';
import { clockWords } from '../parts/clock-words.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { speech } from '../store/speech.ts';
import { sayFailure } from '../words/say-failure.ts';
import { sayPressure, sayUnit, settingDigits } from '../words/say-pressure.ts';
import { sayInstead } from '../words/say-typed-in.ts';
import { pressureFrom } from './typed-form.ts';
import { sayWrongPressure } from './wrong-pressure.ts';
import { lastTyped, type TypedEntry } from './typed-list.ts';

const MOST = 6;

interface LastTypedProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function LastTyped({ followed, recording }: LastTypedProps) {
  const words = speech.value.wording.typeIn;
  const [chosen, setChosen] = useState<number | null>(null);
  const { readings } = followed;
  const all = Array.from({ length: readings.length }, (_, row) => readings.reading(row));
  const entries = lastTyped(all, followed.takenBack.value, MOST);
  return (
    <section>
      {entries.length > 0 && <h2>{words.last}</h2>}
      <ul class="recordings" data-testid="last-typed" data-revision={followed.revision.value}>
        {entries.map((entry) => (
          <li key={entry.index} data-testid={`typed-${entry.index}`}>
            <div>
              <TypedLine entry={entry} recording={recording} />
            </div>
            {entry.takenBack === null && chosen !== entry.index && (
              <button type="button" onClick={() => setChosen(entry.index)}>
                {words.correct}
              </button>
            )}
            {chosen === entry.index && <Correction entry={entry} done={() => setChosen(null)} />}
          </li>
        ))}
      </ul>
    </section>
  );
}

interface EntryProps {
  readonly entry: TypedEntry;
}

function TypedLine({ entry, recording }: EntryProps & { readonly recording: Recording }) {
  const { pressurePa, elapsedS, takenBack } = entry;
  const text = pressurePa === null ? '' : sayPressure(pressurePa, speech.value);
  return (
    <>
      <b>{takenBack === null ? text : <s>{text}</s>}</b>
      <span>
        {clockWords(recording.startedAtMs + elapsedS * 1000, speech.value, true)}
        {takenBack !== null && `, ${sayInstead(takenBack.insteadPa, speech.value)}`}
      </span>
    </>
  );
}

function Correction({ entry, done }: EntryProps & { readonly done: () => void }) {
  const words = speech.value.wording.typeIn;
  const [spoken] = useState(() => speech.peek());
  const [text, setText] = useState(
    entry.pressurePa === null ? '' : settingDigits(entry.pressurePa, spoken),
  );
  const [wrong, setWrong] = useState<string | null>(null);
  const field = useRef<HTMLInputElement>(null);
  // Selected before the next key comes: what is typed takes the slip's place.
  useLayoutEffect(() => field.current?.select(), []);
  const correct = async (pressurePa: number | null) => {
    const answer = await correctTyped({ index: entry.index, pressurePa });
    if (answer.ok) done();
    else setWrong(sayFailure(answer, speech.peek()));
  };
  const enter = (event: Event) => {
    event.preventDefault();
    const pressurePa = pressureFrom(text, spoken.units);
    if (pressurePa === null) setWrong(sayWrongPressure(text, spoken.units.pressure, speech.peek()));
    else void correct(pressurePa);
  };
  return (
    <form class="row" data-testid="correction" onSubmit={enter}>
      <input
        aria-label={words.correctTo({ name: words.pressure({ unit: sayUnit(spoken) }) })}
        class="short"
        inputMode="decimal"
        autoComplete="off"
        ref={field}
        value={text}
        onInput={(event) => setText(event.currentTarget.value)}
      />
      <button type="submit" class="urgent">
        {words.correct}
      </button>
      <button type="button" onClick={() => void correct(null)}>
        {words.takeBack}
      </button>
      <button type="button" onClick={done}>
        {words.leave}
      </button>
      {wrong !== null && (
        <p class="wrong" role="alert">
          {wrong}
        </p>
      )}
    </form>
  );
}
