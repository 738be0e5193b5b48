/** The latest that was announced and not yet been seen; seeing it brings up the one before. */
import { BatteryWarning, Flag, Hand, TriangleAlert } from 'lucide';
import { MarkButton } from '../live/mark-buttons.tsx';
import { Icon } from '../parts/icon.tsx';
import { panel } from '../parts/panels.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import type { AlertFact } from '../words/alert-fact.ts';
import type { AlertTone } from '../words/say-alert.ts';
import { sayRecording } from '../words/say-origin.ts';
import type { AlertBook } from './alert-book.ts';
import type { LoggedAlert } from './alert-log.ts';
import { isBlocked } from './is-blocked.ts';
import { markOfAlert } from './mark-of-alert.ts';

interface AlertBannerProps {
  readonly session: Session;
  readonly book: AlertBook;
}

/** By their outline alone: a flag, a raised hand, a triangle. */
const SIGNS = { good: Flag, act: Hand, warning: TriangleAlert } as const;

export function signOf({ kind }: AlertFact, tone: AlertTone) {
  const battery = kind === 'sensor_battery' || kind === 'device_battery' || kind === 'pump_battery';
  return battery ? BatteryWarning : SIGNS[tone];
}

/** The button goes with its alert: the focus goes to the next one, or to what the screen begins with. */
function seeAndGoOn(book: AlertBook, alert: LoggedAlert): void {
  book.see(alert);
  requestAnimationFrame(() => {
    if (document.activeElement !== document.body) return;
    const next = document.querySelector<HTMLElement>('[data-testid=seen], .stage');
    next?.focus();
  });
}

export function AlertBanner({ session, book }: AlertBannerProps) {
  const { alerts: wording } = speech.value.wording;
  const alert = book.open.value.at(-1);
  const before = book.open.value.length - 1;
  const words = alert === undefined ? null : book.words(alert.fact);
  const heard = book.heard.value;
  const followed = heard?.followed.value ?? null;
  const recording = heard?.recording.value ?? null;
  const isOfAnother = recording !== null && recording.id !== session.recording.value?.id;
  const mark = alert === undefined ? null : markOfAlert(alert.fact);
  return (
    <div role="alert" aria-live="assertive" data-testid="alerts">
      {alert !== undefined && words !== null && (
        <div
          key={alert.number}
          class="alert"
          data-testid="alert"
          data-tone={words.tone}
          data-kind={alert.fact.kind}
        >
          <span class="alert-sign">
            <Icon of={signOf(alert.fact, words.tone)} size="1em" />
            <i>{wording.tones[words.tone]}</i>
          </span>
          <div class="alert-words">
            <b data-testid="alert-title">{words.title}</b>
            <span class="alert-detail">
              {isOfAnother && (
                <b>{wording.ofRunning({ recording: sayRecording(recording, speech.value) })} </b>
              )}
              {words.detail}
              {(isBlocked.value || book.unheard.value.has(alert.number)) && (
                <i data-testid="unheard"> {wording.unheard}</i>
              )}
            </span>
          </div>
          <div class="alert-buttons">
            {before > 0 && (
              <button
                type="button"
                data-testid="alerts-before"
                aria-haspopup="dialog"
                aria-label={wording.andBefore({ count: before })}
                onClick={() => (panel.value = 'alerts')}
              >
                <span class="roomy">{wording.andBefore({ count: before })}</span>
                <span class="tight" aria-hidden="true">
                  {`+${before}`}
                </span>
              </button>
            )}
            {mark !== null && followed !== null && recording?.open === true && (
              <MarkButton kind={mark} followed={followed} recording={recording} place="alert" />
            )}
            <button type="button" data-testid="seen" onClick={() => seeAndGoOn(book, alert)}>
              {wording.seen}
            </button>
          </div>
        </div>
      )}
    </div>
  );
}
