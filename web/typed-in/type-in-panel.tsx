/** A number read off a sensor that has no radio. */
import { useState } from 'preact/hooks';
import type { TypedReading } from '../../protocol/api.ts';
import { endTypedIn, enterOnSheet, typeIn } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import { choices } from '../store/choices.ts';
import type { Session } from '../store/session.ts';
import {
  END_TYPED_IN,
  nameMetal,
  namePressure,
  TYPE_IN,
  TYPE_IN_HELP,
  TYPED_WRONG,
} from '../words/say-typed-in.ts';
import { readTyped } from './typed-form.ts';

export function TypeInPanel({ session }: { readonly session: Session }) {
  const [units] = useState(() => choices.peek());
  const [pressure, setPressure] = useState('');
  const [temperature, setTemperature] = useState('');
  const [wrong, setWrong] = useState<keyof typeof TYPED_WRONG | null>(null);
  const [busy, setBusy] = useState(false);
  const running = session.recordings.value.some((one) => one.origin === 'typed_in' && one.open);
  const close = () => (panel.value = null);
  const enter = (event: Event) => {
    event.preventDefault();
    const read = readTyped(pressure, temperature, units);
    setWrong(read.ok ? null : read.wrong);
    if (!read.ok || busy) return;
    setBusy(true);
    void typeAndShow(session, read.reading).then(close);
  };
  return (
    <Panel title={TYPE_IN} testId="type-in-panel">
      <p class="quiet">{TYPE_IN_HELP}</p>
      <form class="form" onSubmit={enter}>
        <label>
          {namePressure(units.pressure)}
          <input
            name="pressure"
            inputMode="decimal"
            autoComplete="off"
            autoFocus
            aria-invalid={wrong === 'pressure'}
            value={pressure}
            onInput={(event) => setPressure(event.currentTarget.value)}
          />
        </label>
        <label>
          {nameMetal(units.temperature)}
          <input
            name="temperature"
            inputMode="decimal"
            autoComplete="off"
            aria-invalid={wrong === 'temperature'}
            value={temperature}
            onInput={(event) => setTemperature(event.currentTarget.value)}
          />
        </label>
        {wrong !== null && (
          <p class="wrong" role="alert">
            {TYPED_WRONG[wrong]}
          </p>
        )}
        <button type="submit" class="urgent" disabled={busy}>
          {TYPE_IN}
        </button>
      </form>
      {running && (
        <button
          type="button"
          data-testid="end-typed-in"
          onClick={() => void tell(endTypedIn()).then(close)}
        >
          {END_TYPED_IN}
        </button>
      )}
    </Panel>
  );
}

/** A temperature is the sheet's as well: that is where the verdict looks for it. */
async function typeAndShow(session: Session, reading: TypedReading): Promise<void> {
  const recording = await tell(typeIn(reading));
  if (recording === null) return;
  session.learn(recording);
  session.open(recording.id, false);
  const { temperatureC } = reading;
  if (temperatureC === null) return;
  const elapsedS = Math.max(0, (Date.now() - recording.startedAtMs) / 1000);
  await tell(enterOnSheet(recording.id, { elapsedS, fields: { metalTemperatureC: temperatureC } }));
}
