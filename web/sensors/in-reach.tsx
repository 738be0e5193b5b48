/** Every sensor that the radio knows of: how it is doing, and those that wait to be chosen. */
import type { SensorState, SourceState } from '../../protocol/source-state.ts';
import { clockWords } from '../parts/clock-words.ts';
import { sayPhase, sayProblem } from '../words/say-connection.ts';
import { SENSOR_WORDS, sayClock, saySignal } from '../words/say-sensor.ts';
import { SensorForm } from './sensor-form.tsx';

/** Nobody has said that it is wanted: it may be a barometer. */
export function isOffered({ phase, problem }: SensorState): boolean {
  return phase === 'found' && problem === 'sensor_not_chosen';
}

export function InReach({ sources }: { readonly sources: readonly SourceState[] }) {
  const sensors = sources.filter(({ kind }) => kind === 'radio').flatMap((radio) => radio.sensors);
  if (sensors.length === 0) return null;
  const offered = sensors.filter(isOffered);
  const own = sensors.filter((sensor) => !isOffered(sensor));
  return (
    <>
      <h2>{SENSOR_WORDS.inReach}</h2>
      <ul class="in-reach" data-testid="in-reach">
        {own.map((sensor) => (
          <li key={sensor.sensorId}>
            <b>{sensor.name}</b>: {sayPhase(sensor, clockWords(sensor.sinceMs, true))}
            {sensor.signalDbm !== null && `, ${saySignal(sensor.signalDbm)}`}
            {sensor.batteryPercent !== null && `, battery ${sensor.batteryPercent} %`}
            {sensor.clockFastPercent !== undefined && `, ${sayClock(sensor.clockFastPercent)}`}
            {sensor.problem !== null && <p class="quiet">{wordsOf(sensor)}</p>}
          </li>
        ))}
      </ul>
      {offered.length > 0 && <p>{sayProblem('sensor_not_chosen')?.text}</p>}
      {offered.map(({ sensorId, name }) => (
        <SensorForm
          key={sensorId}
          sensorId={sensorId}
          heading={`${name}: ${SENSOR_WORDS.offered}`}
          ownName={name}
          label={null}
          isRead={false}
        />
      ))}
    </>
  );
}

function wordsOf({ problem }: SensorState): string {
  const said = sayProblem(problem);
  return said === null ? '' : `${said.text} ${said.remedy}`;
}
