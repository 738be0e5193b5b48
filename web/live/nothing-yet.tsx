/** No reading anywhere: what the radio is doing, what to do about it, and a rehearsal meanwhile. */
import { clockWords } from '../parts/clock-words.ts';
import { panel } from '../parts/panels.ts';
import type { Session } from '../store/session.ts';
import { isOffered } from '../sensors/in-reach.tsx';
import { SENSOR_WORDS } from '../words/say-sensor.ts';
import { sayConnection, sayProblem, saySourceAtRest } from '../words/say-connection.ts';

export function NothingYet({ session }: { readonly session: Session }) {
  const connection = session.connection.value;
  const radios = session.sources.value.filter((source) => source.kind === 'radio');
  const bridge = sayConnection(connection.phase, clockWords(connection.sinceMs, true));
  return (
    <main class="nothing" data-testid="nothing-yet">
      <div class="nothing-words">
        {connection.phase !== 'live' ? (
          <>
            <h1>{bridge.text}</h1>
            <p>{bridge.remedy}</p>
          </>
        ) : (
          <>
            <h1>
              {radios.length === 0 ? 'No sensor is looked for' : saySourceAtRest(radios[0]?.phase)}
            </h1>
            {radios.map((radio) => {
              const problem = sayProblem(radio.problem);
              return problem === null ? null : (
                <p key={radio.id} data-testid="problem">
                  {problem.text} <b>{problem.remedy}</b>
                </p>
              );
            })}
            {radios.some((radio) => radio.sensors.some(isOffered)) && (
              <button
                type="button"
                data-testid="choose-sensor"
                onClick={() => (panel.value = 'sensors')}
              >
                {SENSOR_WORDS.choose}
              </button>
            )}
            <p>
              Switch the sensor on within reach. Recording starts with its first reading, by itself.
            </p>
          </>
        )}
        <p class="nothing-remark">
          <i>Meanwhile, or to learn:</i>
        </p>
        <button
          type="button"
          class="urgent"
          data-testid="rehearse-now"
          disabled={connection.phase !== 'live'}
          onClick={() => (panel.value = 'rehearse')}
        >
          Rehearse a job without a sensor
        </button>
      </div>
      <svg class="nothing-sea" viewBox="0 0 600 400" preserveAspectRatio="none" aria-hidden="true">
        <path d="M0 10 C14 170 48 285 150 322 S400 352 600 356 V400 H0Z" class="sea-fill" />
        <path d="M0 10 C14 170 48 285 150 322 S400 352 600 356" class="sea-line" />
      </svg>
    </main>
  );
}
