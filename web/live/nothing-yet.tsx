/** No reading anywhere: the way to a sensor and what may bar it, and the way to a rehearsal, side by side. */
import { Bluetooth, BluetoothOff, Play } from 'lucide';
import { ReadInFile } from '../history/read-in-file.tsx';
import { clockWords } from '../parts/clock-words.ts';
import { Icon } from '../parts/icon.tsx';
import { panel } from '../parts/panels.ts';
import { begin } from '../rehearse/begin.ts';
import { USUAL_MANNER } from '../rehearse/how-to-rehearse.tsx';
import { randomSeed } from '../rehearse/random-seed.ts';
import { rateFrom } from '../rehearse/rates.ts';
import { isOffered } from '../sensors/in-reach.tsx';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { may } from '../store/this-screen.ts';
import { bluetoothSteps } from '../words/say-bluetooth-help.ts';
import { sayConnection, sayProblem, saySourceAtRest } from '../words/say-connection.ts';

/** A sound system: what a pull-down and a hold look like when nothing is wrong. */
const FIRST_JOB = 'quarry-road-bakery';

export function NothingYet({ session }: { readonly session: Session }) {
  const isLive = session.connection.value.phase === 'live';
  return (
    <main class="nothing" data-testid="nothing-yet">
      {isLive ? <ToSensor session={session} /> : <NoBridge session={session} />}
      {may('owner') && <ToRehearsal session={session} isLive={isLive} />}
      <svg class="nothing-sea" viewBox="0 0 600 400" preserveAspectRatio="none" aria-hidden="true">
        <path d="M0 10 C14 170 48 285 150 322 S400 352 600 356 V400 H0Z" class="sea-fill" />
        <path d="M0 10 C14 170 48 285 150 322 S400 352 600 356" class="sea-line" />
      </svg>
    </main>
  );
}

interface ToRehearsalProps {
  readonly session: Session;
  readonly isLive: boolean;
}

function ToRehearsal({ session, isLive }: ToRehearsalProps) {
  const { wording } = speech.value;
  return (
    <section class="berth">
      <i>{wording.firstMinute.toRehearsal}</i>
      <h2>{wording.firstMinute.learn}</h2>
      <p>{wording.firstMinute.firstJob}</p>
      <button
        type="button"
        class="urgent"
        data-testid="rehearse-first"
        disabled={!isLive}
        onClick={() => void beginFirst(session)}
      >
        <Icon of={Play} />
        {wording.firstMinute.first}
      </button>
      <div class="row">
        <button
          type="button"
          data-testid="rehearse-now"
          disabled={!isLive}
          onClick={() => (panel.value = 'rehearse')}
        >
          {wording.firstMinute.others}
        </button>
        <i>{wording.firstMinute.otherwise}</i>
        <button type="button" disabled={!isLive} onClick={() => (panel.value = 'type-in')}>
          {wording.typeIn.title}
        </button>
        {isLive && <ReadInFile explained={false} session={session} />}
      </div>
    </section>
  );
}

function beginFirst(session: Session): Promise<void> {
  const { rate, helper } = USUAL_MANNER;
  return begin(session, { name: FIRST_JOB, seed: randomSeed(), rate: rateFrom(rate), helper });
}

function NoBridge({ session }: { readonly session: Session }) {
  const connection = session.connection.value;
  const { text, remedy } = sayConnection(
    connection,
    clockWords(connection.sinceMs, speech.value, true),
    speech.value,
  );
  return (
    <section class="berth">
      <h1>{text}</h1>
      <p>{remedy}</p>
    </section>
  );
}

function ToSensor({ session }: { readonly session: Session }) {
  const { wording } = speech.value;
  const radios = session.sources.value.filter((source) => source.kind === 'radio');
  const problem = radios.find((radio) => radio.problem !== null)?.problem ?? null;
  const said = sayProblem(problem, speech.value);
  const steps = bluetoothSteps(problem, session.platform.value, speech.value);
  return (
    <section class="berth">
      <i>{wording.firstMinute.toSensor}</i>
      <h1>
        <Icon of={said === null ? Bluetooth : BluetoothOff} size="0.85em" />{' '}
        {radios.length === 0
          ? wording.firstMinute.none
          : saySourceAtRest(radios[0]?.phase, speech.value)}
      </h1>
      {said !== null && (
        <p data-testid="problem">
          {said.text} {steps.length === 0 && <b>{said.remedy}</b>}
        </p>
      )}
      {steps.length > 0 && (
        <ol data-testid="bluetooth-steps">
          {steps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
      )}
      {may('owner') && radios.some((radio) => radio.sensors.some(isOffered)) && (
        <button
          type="button"
          class="urgent"
          data-testid="choose-sensor"
          onClick={() => (panel.value = 'sensors')}
        >
          {wording.sensors.choose}
        </button>
      )}
      <p>{wording.firstMinute.onItsOwn}</p>
      {may('assist') && (
        <div class="row">
          <button
            type="button"
            data-testid="prepare-sheet"
            onClick={() => (panel.value = 'prepared')}
          >
            {wording.prepared.newOne}
          </button>
        </div>
      )}
    </section>
  );
}
