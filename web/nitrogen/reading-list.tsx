/** What was read during the nitrogen test; a slip is taken away, and the record keeps that there was one. */
import type { NitrogenReading } from '../../protocol/nitrogen-test.ts';
import { clockWords } from '../parts/clock-words.ts';
import { speech } from '../store/speech.ts';
import { sayGauge } from '../words/say-gauge-pressure.ts';
import { sayTenths } from '../words/say-temperature.ts';
import type { Speech } from '../words/speech.ts';
import type { NitrogenProps } from './nitrogen-props.ts';

export function ReadingList({ open, unit }: NitrogenProps) {
  const words = speech.value.wording.nitrogen;
  const readings = open.sheet.value.nitrogenReadings;
  if (readings.length === 0) return null;
  const takeAway = (gone: NitrogenReading) =>
    void open.enter({
      nitrogenReadings: readings.filter((one) => one !== gone),
    });
  return (
    <section>
      <h2>{words.readings}</h2>
      <ul class="recordings" data-testid="nitrogen-readings">
        {readings.map((reading) => {
          const said = sayGauge(reading.pressure, unit, speech.value);
          return (
            <li key={`${reading.atMs} ${reading.step}`}>
              <div>
                <b>{said}</b>
                <span>{beside(reading, speech.value)}</span>
              </div>
              <button
                type="button"
                aria-label={words.takeAwayNamed({ reading: said })}
                onClick={() => takeAway(reading)}
              >
                {words.takeAway}
              </button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function beside(reading: NitrogenReading, said: Speech): string {
  const words = said.wording.nitrogen;
  const { atMs, temperatureC, step, justFilled, note } = reading;
  return [
    clockWords(atMs, said),
    words.stepName({ step: String(step) }),
    temperatureC === null ? words.noTemperature : sayTenths(temperatureC, said),
    ...(justFilled ? [words.filled] : []),
    ...(note === '' ? [] : [note]),
  ].join(', ');
}
