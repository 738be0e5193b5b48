/** What a technician says of one sensor: its name, where it sits, and of a gauge how fine it shows. */
import { useState } from 'preact/hooks';
import { LONGEST_SENSOR_NAME, SENSOR_PLACES } from '../../protocol/sensor-label.ts';
import type { SensorLabel } from '../../protocol/sensor-label.ts';
import { giveCalibration, giveSensorLabel } from '../connection/bridge-api.ts';
import { PickOne } from '../parts/pick-one.tsx';
import { speech } from '../store/speech.ts';
import { sayFailure } from '../words/say-failure.ts';
import { sayUnit, settingDigits } from '../words/say-pressure.ts';
import { isMistakable } from '../typed-in/typed-number.ts';
import { sayMistakable } from '../words/say-typed-in.ts';
import { displayStepFrom } from './display-step-from.ts';

interface SensorFormProps {
  readonly sensorId: string;
  readonly heading: string;
  /** What it is called as long as nobody calls it something else. */
  readonly ownName: string;
  readonly label: SensorLabel | null;
  /** The day of its last calibration as it was entered (ISO 8601); null: nobody entered one. */
  readonly calibratedOn: string | null;
  /** Somebody reads it: its display goes in steps. */
  readonly isRead: boolean;
  readonly given?: (label: SensorLabel) => void;
}

interface Answer {
  readonly text: string;
  readonly ok: boolean;
}

export function SensorForm(props: SensorFormProps) {
  const { sensorId, heading, ownName, label, calibratedOn, isRead, given } = props;
  const words = speech.value.wording.sensors;
  // What is being typed stays in the unit in which it was begun.
  const [spoken] = useState(() => speech.peek());
  const unit = spoken.units.pressure;
  const [name, setName] = useState(label?.name ?? '');
  const [place, setPlace] = useState(label?.place ?? 'unknown');
  const stepPa = label?.displayStepPa ?? null;
  const [step, setStep] = useState(stepPa === null ? '' : settingDigits(stepPa, spoken));
  const [calibrated, setCalibrated] = useState(calibratedOn ?? '');
  const [answer, setAnswer] = useState<Answer | null>(null);
  const save = async (event: Event) => {
    event.preventDefault();
    const displayStepPa = isRead ? displayStepFrom(step, unit) : stepPa;
    if (displayStepPa === undefined) {
      const text = isMistakable(step, unit) ? sayMistakable(step, speech.peek()) : words.stepWrong;
      setAnswer({ text, ok: false });
      return;
    }
    const answered = await giveSensorLabel({ sensorId, name, place, displayStepPa });
    setAnswer(
      answered.ok
        ? { text: words.saved, ok: true }
        : { text: sayFailure(answered, speech.peek()), ok: false },
    );
    if (!answered.ok) return;
    if (calibrated !== '' && calibrated !== calibratedOn) {
      const said = await giveCalibration({ sensorId, calibratedOn: calibrated });
      if (!said.ok) setAnswer({ text: sayFailure(said, speech.peek()), ok: false });
    }
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
        {words.name}
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
          {words.step({ unit: sayUnit(spoken) })}
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
        legend={words.place}
        name={`place-${sensorId}`}
        options={SENSOR_PLACES}
        chosen={place}
        label={(option) => words.places[option]}
        pick={(option) => {
          setAnswer(null);
          setPlace(option);
        }}
      />
      <label class="sensor-name">
        {words.calibrated}
        <input name="calibrated" type="date" value={calibrated} onInput={write(setCalibrated)} />
      </label>
      <div class="row">
        <button type="submit" class="urgent">
          {words.save}
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
