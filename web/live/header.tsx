/** The top line: what is measured, by which sensor, and whether that is live. */
import { clockWords } from '../parts/clock-words.ts';
import { panel } from '../parts/panels.ts';
import { freshness } from '../store/freshness.ts';
import type { Session } from '../store/session.ts';
import { isNameable } from '../sensors/is-nameable.ts';
import { sayConnection, saySource } from '../words/say-connection.ts';
import { sayUnheard, sayWhen } from '../words/say-origin.ts';
import { SENSOR_WORDS, saySensors } from '../words/say-sensor.ts';

export function Header({ session }: { readonly session: Session }) {
  const connection = session.connection.value;
  const recording = session.recording.value;
  const source = session.source.value;
  const sheet = session.followed.value?.sheet.value;
  const channel = session.followed.value?.channel.value ?? 0;
  const sensorName = saySensors(recording?.sensors ?? [])[channel] ?? source?.name ?? '';
  const state = freshness(connection, recording, source);
  const job = [sheet?.site, sheet?.equipment].filter((part) => part !== undefined && part !== '');
  const title = recording?.origin === 'rehearsal' ? (source?.name ?? '') : '';
  const sound = state.kind !== 'stale' && state.kind !== 'catching_up';
  const latestS = session.followed.value?.latest.value?.elapsedS ?? 0;
  const unheard =
    recording === null
      ? null
      : sayUnheard(recording, clockWords(recording.startedAtMs + latestS * 1000, true));
  const heard =
    source === null ? null : saySource(source, sensorName, clockWords(source.sinceMs, true));
  const bridge = sayConnection(connection.phase, clockWords(connection.sinceMs, true)).text;
  const words = connection.phase === 'live' ? (unheard ?? heard ?? bridge) : bridge;
  const shown = job.length > 0 ? job.join(', ') : title;
  return (
    <header class="head">
      <span class="name">Ebbline</span>
      {recording?.origin === 'rehearsal' && (
        <strong class="rehearsal-badge" data-testid="rehearsal-badge">
          Rehearsal
        </strong>
      )}
      {recording === null ? (
        <span class="job" />
      ) : (
        <button
          type="button"
          class="job"
          data-testid="job"
          title={shown}
          onClick={() => (panel.value = 'sheet')}
        >
          {shown === '' ? 'Job sheet' : shown}
        </button>
      )}
      <span class="head-states">
        <span class="state" data-testid="connection-state" data-phase={connection.phase}>
          <span class={`sign ${sound ? 'sign-good' : 'sign-bad'}`} aria-hidden="true" />
          {isNameable(recording) && connection.phase === 'live' ? (
            <button
              type="button"
              class="state-text state-name"
              data-testid="name-sensor"
              title={SENSOR_WORDS.rename}
              aria-haspopup="dialog"
              onClick={() => (panel.value = 'sensors')}
            >
              {words}
            </button>
          ) : (
            <span class="state-text">{words}</span>
          )}
        </span>
        {source !== null && source.batteryPercent !== null && (
          <span class={source.batteryPercent < 15 ? 'low' : 'quiet'} data-testid="battery">
            battery {Math.round(source.batteryPercent)} %{source.batteryPercent < 15 ? ', low' : ''}
          </span>
        )}
        {recording !== null && (
          <span class="quiet since">{sayWhen(recording, clockWords(recording.startedAtMs))}</span>
        )}
      </span>
      <button
        type="button"
        class="plain"
        data-testid="menu"
        aria-haspopup="dialog"
        onClick={() => (panel.value = 'menu')}
      >
        Menu
      </button>
    </header>
  );
}
