/** What was announced in this recording: when, by data time and clock, and whether it was seen. */
import { clockWords } from '../parts/clock-words.ts';
import { Icon } from '../parts/icon.tsx';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import { TONE_WORDS } from '../words/say-alert.ts';
import { sayMoment } from '../words/say-duration.ts';
import { ALERT_WORDS, sayAlertState, sayWhen } from '../words/say-reach.ts';
import { signOf } from './alert-banner.tsx';
import type { AlertBook } from './alert-book.ts';
import type { LoggedAlert } from './alert-log.ts';

export function AlertsPanel({ book }: { readonly book: AlertBook }) {
  const latestFirst = [...book.log.value].reverse();
  const open = book.open.value;
  return (
    <Panel title={ALERT_WORDS.title} testId="alerts-panel">
      <div class="row">
        <button
          type="button"
          data-testid="all-seen"
          disabled={open.length === 0}
          onClick={() => book.seeAll()}
        >
          {ALERT_WORDS.allSeen}
        </button>
        <button
          type="button"
          data-testid="open-alert-reach"
          aria-haspopup="dialog"
          onClick={() => (panel.value = 'alert-reach')}
        >
          {ALERT_WORDS.reach}…
        </button>
      </div>
      {latestFirst.length === 0 && <p class="quiet">{ALERT_WORDS.none}</p>}
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
  const { tone, title, detail } = book.words(alert.fact);
  const seenAt = alert.seenMs === null ? null : clockWords(alert.seenMs);
  const state = sayAlertState(alert.state, seenAt);
  return (
    <li data-kind={alert.fact.kind} data-state={alert.state}>
      <span class="alert-sign">
        <Icon of={signOf(alert.fact, tone)} />
        <i>{TONE_WORDS[tone]}</i>
      </span>
      <div>
        <b>{title}</b>
        <p>{detail}</p>
        <p class="quiet">
          {sayWhen(clockWords(alert.atMs, true), sayMoment(alert.fact.atS))}; {state}
          {alert.early && `; ${ALERT_WORDS.early}`}
        </p>
      </div>
      {isOpen && (
        <button type="button" data-testid="seen-listed" onClick={() => book.see(alert)}>
          {ALERT_WORDS.seen}
        </button>
      )}
    </li>
  );
}
