/** What was announced in this recording: when, by data time and clock, and whether it was seen. */
import { clockWords } from '../parts/clock-words.ts';
import { Icon } from '../parts/icon.tsx';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { sayMoment } from '../words/say-duration.ts';
import { sayRecording } from '../words/say-origin.ts';
import { sayAlertState } from '../words/say-reach.ts';
import { signOf } from './alert-banner.tsx';
import type { AlertDesk } from './alert-desk.ts';
import type { OpenAlert } from './heard-recording.ts';

interface AlertsPanelProps {
  readonly session: Session;
  readonly desk: AlertDesk;
}

/** Of a recording that is not shown only what nobody has seen. */
export function AlertsPanel({ session, desk }: AlertsPanelProps) {
  const words = speech.value.wording.alerts;
  const open = desk.open.value;
  const first = desk.first.value;
  const latestFirst = desk.heard.value
    .flatMap((of) => {
      const alerts = of === first ? of.book.log.value : of.book.open.value;
      return alerts.map((alert) => ({ of, alert }));
    })
    .sort((a, b) => b.alert.atMs - a.alert.atMs || b.alert.number - a.alert.number);
  return (
    <Panel title={words.title} testId="alerts-panel">
      <div class="row">
        <button
          type="button"
          data-testid="all-seen"
          disabled={open.length === 0}
          onClick={() => desk.seeAll()}
        >
          {words.allSeen}
        </button>
        <button
          type="button"
          data-testid="open-alert-reach"
          aria-haspopup="dialog"
          onClick={() => (panel.value = 'alert-reach')}
        >
          {words.reach}
        </button>
      </div>
      {latestFirst.length === 0 && <p class="quiet">{words.none}</p>}
      <ol class="alert-log" data-testid="alert-log">
        {latestFirst.map((entry) => (
          <Entry
            key={`${entry.of.book.key}/${entry.alert.number}`}
            entry={entry}
            isOpen={open.some(({ alert }) => alert === entry.alert)}
            isOfAnother={entry.of.recordingId !== session.recording.value?.id}
          />
        ))}
      </ol>
    </Panel>
  );
}

interface EntryProps {
  readonly entry: OpenAlert;
  readonly isOpen: boolean;
  readonly isOfAnother: boolean;
}

function Entry({ entry: { of, alert }, isOpen, isOfAnother }: EntryProps) {
  const words = speech.value.wording.alerts;
  const { book } = of;
  const recording = of.recording.value;
  const { tone, title, detail } = book.words(alert.fact);
  const seenAt = alert.seenMs === null ? null : clockWords(alert.seenMs, speech.value);
  const state = sayAlertState(alert.state, seenAt, speech.value);
  return (
    <li data-kind={alert.fact.kind} data-state={alert.state}>
      <span class="alert-sign">
        <Icon of={signOf(alert.fact, tone)} />
        <i>{words.tones[tone]}</i>
      </span>
      <div>
        <b>{title}</b>
        {isOfAnother && recording !== null && (
          <p>{words.ofAnother({ recording: sayRecording(recording, speech.value) })}</p>
        )}
        <p>{detail}</p>
        <p class="quiet">
          {words.calledAt({
            moment: sayMoment(alert.fact.atS),
            clock: clockWords(alert.atMs, speech.value, true),
          })}
          ; {state}
          {alert.early && `; ${words.early}`}
        </p>
      </div>
      {isOpen && (
        <button type="button" data-testid="seen-listed" onClick={() => book.see(alert)}>
          {words.seen}
        </button>
      )}
    </li>
  );
}
