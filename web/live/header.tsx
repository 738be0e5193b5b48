/** The top line: what is measured, by which sensor, and whether that is live. */
import { BatteryFull, BatteryLow, BatteryMedium, Menu } from 'lucide';
import { isSimulated } from '../../protocol/recording.ts';
import type { SourceState } from '../../protocol/source-state.ts';
import { clockWords } from '../parts/clock-words.ts';
import { Icon } from '../parts/icon.tsx';
import { panel } from '../parts/panels.ts';
import { isRunning } from '../store/choose-recording.ts';
import { type Freshness, freshness } from '../store/freshness.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { isNameable } from '../sensors/is-nameable.ts';
import { sayBattery } from '../words/say-header.ts';
import { sayConnection, sayEnded, sayNotKept, saySource } from '../words/say-connection.ts';
import { sayUnheard } from '../words/say-origin.ts';
import { sayRehearsalJob } from '../words/say-rehearsal.ts';
import { saySensors } from '../words/say-sensor.ts';
import { LookButton } from './look-button.tsx';

export function Header({ session }: { readonly session: Session }) {
  const { wording } = speech.value;
  const connection = session.connection.value;
  const recording = session.recording.value;
  // Of a recording that is over no source is the source: another one may be running meanwhile.
  const isOver = recording !== null && !isRunning(recording);
  const source = isOver ? null : session.source.value;
  const sheet = session.followed.value?.sheet.value;
  const channel = session.followed.value?.channel.value ?? 0;
  const sensorName =
    saySensors(recording?.sensors ?? [], speech.value)[channel] ?? source?.name ?? '';
  const state = freshness(connection, recording, source, session.record.value);
  const job = [sheet?.site, sheet?.equipment].filter((part) => part !== undefined && part !== '');
  const title =
    recording?.origin === 'rehearsal' ? sayRehearsalJob(recording.title, speech.value) : '';
  const tone = toneOf(state, source);
  const latestS = session.followed.value?.latest.value?.elapsedS ?? 0;
  const unheard =
    recording === null
      ? null
      : sayUnheard(
          recording,
          clockWords(recording.startedAtMs + latestS * 1000, speech.value, true),
          speech.value,
        );
  const heard =
    source === null
      ? sayEnded(isOver, sensorName, speech.value)
      : saySource(source, sensorName, clockWords(source.sinceMs, speech.value, true), speech.value);
  const bridge = sayConnection(
    connection,
    clockWords(connection.sinceMs, speech.value, true),
    speech.value,
  ).text;
  const notKept =
    state.kind === 'stale' && state.why === 'record'
      ? sayNotKept(sensorName, clockWords(state.sinceMs, speech.value, true), speech.value)
      : null;
  const words = connection.phase === 'live' ? (notKept ?? unheard ?? heard ?? bridge) : bridge;
  const shown = job.length > 0 ? job.join(', ') : title;
  return (
    <header class="head">
      <span class="name">Ebbline</span>
      {recording !== null && isSimulated(recording) && (
        <strong class="rehearsal-badge" data-testid="rehearsal-badge">
          {wording.header.rehearsal}
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
          {shown === '' ? wording.header.sheet : shown}
        </button>
      )}
      <span class="head-states">
        <span
          class={`state state-${tone}`}
          data-testid="connection-state"
          data-phase={connection.phase}
        >
          <span class="sign" aria-hidden="true" />
          {isNameable(recording) && connection.phase === 'live' ? (
            <button
              type="button"
              class="state-text state-name"
              data-testid="name-sensor"
              title={wording.sensors.rename}
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
          <Battery percent={source.batteryPercent} />
        )}
      </span>
      <LookButton />
      <button
        // Without it the job's button, when the first reading comes, is made of this one: a press is lost, and the focus goes there.
        key="menu"
        type="button"
        class="head-button"
        data-testid="menu"
        aria-haspopup="dialog"
        onClick={() => (panel.value = 'menu')}
      >
        <Icon of={Menu} /> <span>{wording.header.menu}</span>
      </button>
    </header>
  );
}

/** Whether readings come: yes, not yet, no more though they should, or none since it is over. */
function toneOf(state: Freshness, source: SourceState | null): 'good' | 'waiting' | 'bad' | 'over' {
  if (state.kind === 'ended') return 'over';
  if (state.kind === 'catching_up') return 'waiting';
  if (state.kind !== 'stale') return 'good';
  const phase = state.why === 'sensor' ? source?.phase : undefined;
  const isComing = phase === 'starting' || phase === 'searching';
  return isComing || phase === 'found' || phase === 'connecting' ? 'waiting' : 'bad';
}

/** Below this it stands out, %. Common practice, no source. */
const LOW_PERCENT = 15;

function Battery({ percent }: { readonly percent: number }) {
  const low = percent < LOW_PERCENT;
  return (
    <span class={low ? 'battery low' : 'battery quiet'} data-testid="battery">
      <Icon of={low ? BatteryLow : percent < 60 ? BatteryMedium : BatteryFull} />{' '}
      {sayBattery(percent, low, speech.value)}
    </span>
  );
}
