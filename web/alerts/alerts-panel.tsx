/** What was announced in this recording: when, by data time and clock, and whether it was seen. */
import { clockWords } from '../parts/clock-words.ts';
import { Icon } from '../parts/icon.tsx';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import { speech } from '../store/speech.ts';
import { sayMoment } from '../words/say-duration.ts';
import { sayAlertState } from '../words/say-reach.ts';
import { signOf } from './alert-banner.tsx';
import type { AlertBook } from './alert-book.ts';
import type { LoggedAlert } from './alert-log.ts';

export function AlertsPanel({ book }: { readonly book: AlertBook }) {
  const words = speech.value.wording.alerts;
  const latestFirst = [...book.log.value].reverse();
  const open = book.open.value;
  return (
    <Panel title={words.title} testId="alerts-panel">
      <div class="row">
        <button
          type="button"
          data-testid="all-seen"
          disabled={open.length === 0}
          onClick={() => book.seeAll()}
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
        {latestFirst.map((alert) => (
          <Entry key={alert.number} alert={alert} book={book} isOpen={open.includes(alert)} />
        ))}
      </ol>
    </Panel>
  );
}

interface EntryProps {
  readonly alert: LoggedAlert;
  readonly book: AlertBook;
  readonly isOpen: boolean;
}

function Entry({ alert, book, isOpen }: EntryProps) {
  const words = speech.value.wording.alerts;
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
