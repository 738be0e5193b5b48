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
import type { AlertDesk } from './alert-desk.ts';
import type { OpenAlert } from './heard-recording.ts';
import { isInDoubt } from './in-doubt.ts';
import { markOfAlert } from './mark-of-alert.ts';

interface AlertBannerProps {
  readonly session: Session;
  readonly desk: AlertDesk;
}

/** By their outline alone: a flag, a raised hand, a triangle. */
const SIGNS = { good: Flag, act: Hand, warning: TriangleAlert } as const;

export function signOf({ kind }: AlertFact, tone: AlertTone) {
  const battery = kind === 'sensor_battery' || kind === 'device_battery' || kind === 'pump_battery';
  return battery ? BatteryWarning : SIGNS[tone];
}

/** The button goes with its alert: the focus goes to the next one, or to what the screen begins with. */
function seeAndGoOn({ of, alert }: OpenAlert): void {
  of.book.see(alert);
  requestAnimationFrame(() => {
    if (document.activeElement !== document.body) return;
    const next = document.querySelector<HTMLElement>('[data-testid=seen], .stage');
    next?.focus();
  });
}

export function AlertBanner({ session, desk }: AlertBannerProps) {
  const latest = desk.open.value.at(-1);
  return (
    <div role="alert" aria-live="assertive" data-testid="alerts">
      {latest !== undefined && (
        <Latest
          key={`${latest.of.book.key}/${latest.alert.number}`}
          session={session}
          latest={latest}
          before={desk.open.value.length - 1}
        />
      )}
    </div>
  );
}

interface LatestProps {
  readonly session: Session;
  readonly latest: OpenAlert;
  /** How many stand behind it. */
  readonly before: number;
}

function Latest({ session, latest, before }: LatestProps) {
  const { alerts: wording, connection } = speech.value.wording;
  const { of, alert } = latest;
  const words = of.book.words(alert.fact);
  const followed = of.book.session.value?.followed.value ?? null;
  const recording = of.recording.value;
  const mark = markOfAlert(alert.fact);
  const isWatched = followed?.channel.value === alert.channel;
  const inDoubt = isInDoubt(
    alert.fact,
    (isWatched ? followed.conclusions.value?.rise : null) ?? null,
  );
  const tone = inDoubt ? 'warning' : words.tone;
  const isOfAnother = recording !== null && recording.id !== session.recording.value?.id;
  return (
    <div class="alert" data-testid="alert" data-tone={tone} data-kind={alert.fact.kind}>
      <span class="alert-sign">
        <Icon of={signOf(alert.fact, tone)} size="1em" />
        <i>{wording.tones[tone]}</i>
      </span>
      <div class="alert-words">
        <b data-testid="alert-title">
          {inDoubt ? wording.inDoubt({ title: words.title }) : words.title}
        </b>
        <span class="alert-detail">
          {isOfAnother && (
            <b>{wording.ofAnother({ recording: sayRecording(recording, speech.value) })} </b>
          )}
          {words.detail}
          {alert.unheard && <i data-testid="unheard"> {wording.unheard}</i>}
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
        {isOfAnother && (
          <button
            type="button"
            data-testid="show-its-recording"
            onClick={() => session.open(recording.id, true)}
          >
            {connection.showIt}
          </button>
        )}
        {mark !== null && followed !== null && recording?.open === true && (
          <MarkButton kind={mark} followed={followed} recording={recording} place="alert" />
        )}
        <button type="button" data-testid="seen" onClick={() => seeAndGoOn(latest)}>
          {wording.seen}
        </button>
      </div>
    </div>
  );
}
