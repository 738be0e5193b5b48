/** Numbers read off a gauge that has no radio: one line, keyboard only, number after number. */
import { useEffect, useRef, useState } from 'preact/hooks';
import type { TypedReading } from '../../protocol/typed-in.ts';
import { type Answer, endTypedIn, enterOnSheet, typeIn } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { may } from '../store/this-screen.ts';
import { sayFailure } from '../words/say-failure.ts';
import { sayUnit } from '../words/say-pressure.ts';
import { Gauge } from './gauge.tsx';
import { LastTyped } from './last-typed.tsx';
import { readTyped, type TypedTexts } from './typed-form.ts';
import { sayWrongPressure } from './wrong-pressure.ts';

const EMPTY: TypedTexts = { pressure: '', when: '', temperature: '' };

export function TypeInPanel({ session }: { readonly session: Session }) {
  const words = speech.value.wording.typeIn;
  const [spoken] = useState(() => speech.peek());
  const [texts, setTexts] = useState(EMPTY);
  const [wrong, setWrong] = useState<keyof TypedTexts | null>(null);
  const [refused, setRefused] = useState<string | null>(null);
  const first = useRef<HTMLInputElement>(null);
  /** One after the other, in the order in which they were typed, however fast that is. */
  const before = useRef<Promise<unknown>>(Promise.resolve());
  const running = session.recordings.value.find((one) => one.origin === 'typed_in' && one.open);
  const followed = session.followed.value;
  useEffect(() => {
    if (running !== undefined) session.open(running.id, false);
  }, []);
  const write = (field: keyof TypedTexts) => (event: { currentTarget: { value: string } }) => {
    setWrong(null);
    setTexts({ ...texts, [field]: event.currentTarget.value });
  };
  const enter = (event: Event) => {
    event.preventDefault();
    const read = readTyped(texts, spoken, Date.now());
    setWrong(read.ok ? null : read.wrong);
    if (!read.ok) return;
    setTexts(EMPTY);
    setRefused(null);
    first.current?.focus();
    before.current = before.current.then(async () => {
      const answer = await typeAndShow(session, read.reading);
      if (answer.ok) return;
      const why = sayFailure(answer, speech.peek());
      setRefused(words.notEntered({ pressure: texts.pressure, why }));
    });
  };
  const field = (name: keyof TypedTexts) => ({
    name,
    autoComplete: 'off',
    'aria-invalid': wrong === name,
    value: texts[name],
    onInput: write(name),
  });
  return (
    <Panel title={words.title} testId="type-in-panel">
      <p class="quiet">{words.help}</p>
      <form class="form typed-line" onSubmit={enter}>
        <label>
          {words.pressure({ unit: sayUnit(spoken) })}
          <input ref={first} inputMode="decimal" autoFocus {...field('pressure')} />
        </label>
        <label>
          {words.when}
          <input placeholder={words.now} {...field('when')} />
        </label>
        <label>
          {words.metal({ unit: spoken.units.temperature })}
          <input inputMode="decimal" {...field('temperature')} />
        </label>
        <button type="submit" class="urgent">
          {words.enter}
        </button>
        {(wrong !== null || refused !== null) && (
          <p class="wrong" role="alert">
            {wrong === null
              ? refused
              : wrong === 'pressure'
                ? sayWrongPressure(texts.pressure, spoken.units.pressure, speech.value)
                : words.wrong[wrong]}
          </p>
        )}
      </form>
      {running !== undefined && followed?.id === running.id && (
        <LastTyped followed={followed} recording={running} />
      )}
      <Gauge />
      {running !== undefined && may('owner') && (
        <button
          type="button"
          data-testid="end-typed-in"
          onClick={() => void tell(endTypedIn()).then(() => (panel.value = null))}
        >
          {words.end}
        </button>
      )}
    </Panel>
  );
}

/** A temperature is the sheet's as well: that is where the verdict looks for it. */
async function typeAndShow(session: Session, reading: TypedReading): Promise<Answer<unknown>> {
  const answer = await typeIn(reading);
  if (!answer.ok) return answer;
  const recording = answer.value;
  session.learn(recording);
  session.open(recording.id, false);
  const { temperatureC, agoS } = reading;
  if (temperatureC === null) return answer;
  const elapsedS = Math.max(0, (Date.now() - recording.startedAtMs) / 1000 - agoS);
  return enterOnSheet(recording.id, { elapsedS, fields: { metalTemperatureC: temperatureC } });
}
