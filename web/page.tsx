/** The page: the live screen, or why there is none, and what lies over it. */
import { AlertBanner } from './alerts/alert-banner.tsx';
import type { AlertDesk } from './alerts/alert-desk.ts';
import { BlockedSound } from './alerts/blocked-sound.tsx';
import { DaysWorkBar } from './live/days-work-bar.tsx';
import { Header } from './live/header.tsx';
import { LiveScreen } from './live/live-screen.tsx';
import { NothingYet } from './live/nothing-yet.tsx';
import { notice } from './parts/notice.ts';
import { OfficeLine } from './live/office-line.tsx';
import { RecordStrip } from './live/record-strip.tsx';
import { OpenPanel } from './open-panel.tsx';
import { PreparedStrip } from './prepared/prepared-strip.tsx';
import { RehearsalBar } from './rehearse/rehearsal-bar.tsx';
import { isRunning } from './store/choose-recording.ts';
import type { Session } from './store/session.ts';
import { speech } from './store/speech.ts';
import { sayFailure } from './words/say-failure.ts';
import { sayOver } from './words/say-origin.ts';

interface PageProps {
  readonly session: Session;
  readonly alerts: AlertDesk;
}

export function Page({ session, alerts }: PageProps) {
  const followed = session.followed.value;
  const recording = session.recording.value;
  const shown = followed !== null && recording !== null;
  return (
    <>
      <Header session={session} />
      <div class="strips">
        <AlertBanner session={session} desk={alerts} />
        <BlockedSound desk={alerts} />
        {notice.value !== null && (
          <div class="notice" role="alert" data-testid="notice">
            <div>{sayFailure(notice.value, speech.value)}</div>
            <button type="button" onClick={() => (notice.value = null)}>
              {speech.value.wording.connection.close}
            </button>
          </div>
        )}
        <RecordStrip session={session} />
        <OfficeLine session={session} />
        <Elsewhere session={session} alerts={alerts} />
        <PreparedStrip session={session} />
        {recording?.origin === 'rehearsal' && (
          <RehearsalBar session={session} recording={recording} />
        )}
      </div>
      {shown ? (
        <LiveScreen key={followed.id} session={session} followed={followed} recording={recording} />
      ) : (
        <NothingYet session={session} />
      )}
      {shown ? <DaysWorkBar followed={followed} recording={recording} /> : <span />}
      <OpenPanel session={session} alerts={alerts} />
    </>
  );
}

/** One looks at an old recording while another one runs. */
function Elsewhere({ session, alerts }: PageProps) {
  const words = speech.value.wording.connection;
  const shown = session.recording.value;
  const running = session.recordings.value.filter(isRunning).at(-1);
  if (shown === null || isRunning(shown)) return null;
  // An alert of it leads there as well.
  if (alerts.open.value.some(({ of }) => of.recordingId !== shown.id)) return null;
  if (running === undefined) {
    const over = sayOver(shown, speech.value);
    return over === null ? null : <p class="elsewhere">{over}</p>;
  }
  return (
    <p class="elsewhere">
      {words.anotherRuns}{' '}
      <button type="button" onClick={() => session.open(running.id, false)}>
        {words.showIt}
      </button>
    </p>
  );
}
