/** What a technician says of one sensor: its name, where it sits, and of a gauge how fine it shows. */
import { useState } from 'preact/hooks';
import { LONGEST_SENSOR_NAME, SENSOR_PLACES } from '../../protocol/sensor-label.ts';
import type { SensorLabel } from '../../protocol/sensor-label.ts';
import { giveSensorLabel } from '../connection/bridge-api.ts';
import { PickOne } from '../parts/pick-one.tsx';
import { choices } from '../store/choices.ts';
import { PLACE_NAMES, SENSOR_WORDS } from '../words/say-sensor.ts';
import { settingDigits } from '../words/say-pressure.ts';
import { displayStepFrom } from './display-step-from.ts';

interface SensorFormProps {
  readonly sensorId: string;
  readonly heading: string;
  /** What it is called as long as nobody calls it something else. */
  readonly ownName: string;
  readonly label: SensorLabel | null;
  /** Somebody reads it: its display goes in steps. */
  readonly isRead: boolean;
  readonly given?: (label: SensorLabel) => void;
}

interface Answer {
  readonly text: string;
  readonly ok: boolean;
}

export function SensorForm(props: SensorFormProps) {
  const { sensorId, heading, ownName, label, isRead, given } = props;
  const [unit] = useState(() => choices.peek().pressure);
  const [name, setName] = useState(label?.name ?? '');
  const [place, setPlace] = useState(label?.place ?? 'unknown');
  const stepPa = label?.displayStepPa ?? null;
  const [step, setStep] = useState(stepPa === null ? '' : settingDigits(stepPa, unit));
  const [answer, setAnswer] = useState<Answer | null>(null);
  const save = async (event: Event) => {
    event.preventDefault();
    const displayStepPa = isRead ? displayStepFrom(step, unit) : stepPa;
    if (displayStepPa === undefined) {
      setAnswer({ text: SENSOR_WORDS.stepWrong, ok: false });
      return;
    }
    const answered = await giveSensorLabel({ sensorId, name, place, displayStepPa });
    setAnswer(
      answered.ok ? { text: SENSOR_WORDS.saved, ok: true } : { text: answered.message, ok: false },
    );
    if (!answered.ok) return;
    setName(answered.value.name);
    given?.(answered.value);
  };
  const write = (set: (text: string) => void) => (event: { currentTarget: { value: string } }) => {
    setAnswer(null);
    set(event.currentTarget.value);
  };
  return (
    <form
      class="card sensor-form"
      data-testid={`sensor-${sensorId}`}
      onSubmit={(event) => void save(event)}
    >
      <h2>{heading}</h2>
      <label class="sensor-name">
        {SENSOR_WORDS.name}
        <input
          name="name"
          autoComplete="off"
          maxLength={LONGEST_SENSOR_NAME}
          placeholder={ownName}
          value={name}
          onInput={write(setName)}
        />
      </label>
      {isRead && (
        <label class="sensor-name">
          {`${SENSOR_WORDS.step}, ${unit}`}
          <input
            name="step"
            inputMode="decimal"
            autoComplete="off"
            value={step}
            onInput={write(setStep)}
          />
        </label>
      )}
      <PickOne
        legend={SENSOR_WORDS.place}
        name={`place-${sensorId}`}
        options={SENSOR_PLACES}
        chosen={place}
        label={(option) => PLACE_NAMES[option]}
        pick={(option) => {
          setAnswer(null);
          setPlace(option);
        }}
      />
      <div class="row">
        <button type="submit" class="urgent">
          {SENSOR_WORDS.save}
        </button>
        {answer !== null && (
          <span role="status" class={answer.ok ? '' : 'wrong'}>
            {answer.text}
          </span>
        )}
      </div>
    </form>
  );
}
