/** Every sensor that the radio knows of: how it is doing, and those that wait to be chosen. */
import type { SensorState, SourceState } from '../../protocol/source-state.ts';
import { clockWords } from '../parts/clock-words.ts';
import { sayPhase, sayProblem } from '../words/say-connection.ts';
import { speech } from '../store/speech.ts';
import { sayClock, saySignal } from '../words/say-sensor.ts';
import { SensorForm } from './sensor-form.tsx';

/** Nobody has said that it is wanted: it may be a barometer. */
export function isOffered({ phase, problem }: SensorState): boolean {
  return phase === 'found' && problem === 'sensor_not_chosen';
}

export function InReach({ sources }: { readonly sources: readonly SourceState[] }) {
  const sensors = sources.filter(({ kind }) => kind === 'radio').flatMap((radio) => radio.sensors);
  if (sensors.length === 0) return null;
  const { wording } = speech.value;
  const words = wording.sensors;
  const offered = sensors.filter(isOffered);
  const own = sensors.filter((sensor) => !isOffered(sensor));
  return (
    <>
      <h2>{words.inReach}</h2>
      <ul class="in-reach" data-testid="in-reach">
        {own.map((sensor) => (
          <li key={sensor.sensorId}>
            <b>{sensor.name}</b>:{' '}
            {sayPhase(sensor, clockWords(sensor.sinceMs, speech.value, true), speech.value)}
            {sensor.signalDbm !== null && `, ${saySignal(sensor.signalDbm, speech.value)}`}
            {sensor.batteryPercent !== null &&
              `, ${words.battery({ percent: `${sensor.batteryPercent} %` })}`}
            {sensor.clockFastPercent !== undefined &&
              `, ${sayClock(sensor.clockFastPercent, speech.value)}`}
            {sensor.problem !== null && <p class="quiet">{wordsOf(sensor)}</p>}
          </li>
        ))}
      </ul>
      {offered.length > 0 && <p>{wording.problems.sensor_not_chosen.meaning}</p>}
      {offered.map(({ sensorId, name }) => (
        <SensorForm
          key={sensorId}
          sensorId={sensorId}
          heading={words.offered({ name })}
          ownName={name}
          label={null}
          calibratedOn={null}
          isRead={false}
        />
      ))}
    </>
  );
}

function wordsOf({ problem }: SensorState): string {
  const said = sayProblem(problem, speech.value);
  return said === null ? '' : `${said.text} ${said.remedy}`;
}
