/** What a technician says of one sensor: its name, and where it sits. */
import { useState } from 'preact/hooks';
import { LONGEST_SENSOR_NAME, SENSOR_PLACES } from '../../protocol/sensor-label.ts';
import type { RecordedSensor } from '../../protocol/recording.ts';
import { giveSensorLabel } from '../connection/bridge-api.ts';
import { PickOne } from '../parts/pick-one.tsx';
import { PLACE_NAMES, SENSOR_WORDS, sayOwnIdentity } from '../words/say-sensor.ts';

export function SensorForm({ sensor }: { readonly sensor: RecordedSensor }) {
  const { id, label } = sensor;
  const [name, setName] = useState(label?.name ?? '');
  const [place, setPlace] = useState(label?.place ?? 'unknown');
  const [answer, setAnswer] = useState<{ readonly text: string; readonly ok: boolean } | null>(
    null,
  );
  const save = async (event: Event) => {
    event.preventDefault();
    const displayStepPa = label?.displayStepPa ?? null;
    const given = await giveSensorLabel({ sensorId: id, name, place, displayStepPa });
    if (given.ok) setName(given.value.name);
    setAnswer(
      given.ok ? { text: SENSOR_WORDS.saved, ok: true } : { text: given.message, ok: false },
    );
  };
  return (
    <form
      class="card sensor-form"
      data-testid={`sensor-${id}`}
      onSubmit={(event) => void save(event)}
    >
      <h2>{sayOwnIdentity(sensor)}</h2>
      <label class="sensor-name">
        {SENSOR_WORDS.name}
        <input
          name="name"
          autoComplete="off"
          maxLength={LONGEST_SENSOR_NAME}
          placeholder={sensor.name}
          value={name}
          onInput={(event) => {
            setAnswer(null);
            setName(event.currentTarget.value);
          }}
        />
      </label>
      <PickOne
        legend={SENSOR_WORDS.place}
        name={`place-${id}`}
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
