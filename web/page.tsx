/** The page: the live screen, or why there is none, and what lies over it. */
import { AlertBanner } from './alerts/alert-banner.tsx';
import type { AlertDesk } from './alerts/alert-desk.ts';
import { AlertsPanel } from './alerts/alerts-panel.tsx';
import { BlockedSound } from './alerts/blocked-sound.tsx';
import { ReachPanel } from './alerts/reach-panel.tsx';
import { CyclesPanel } from './cycles/cycles-panel.tsx';
import { JobsPanel } from './history/jobs-panel.tsx';
import { NewJobPanel } from './history/new-job-panel.tsx';
import { SignPanel } from './history/sign-panel.tsx';
import { HuntPanel } from './hunt/hunt-panel.tsx';
import { DaysWorkBar } from './live/days-work-bar.tsx';
import { Header } from './live/header.tsx';
import { LiveScreen } from './live/live-screen.tsx';
import { MorePanel } from './live/more-panel.tsx';
import { NotePanel } from './live/note-panel.tsx';
import { NothingYet } from './live/nothing-yet.tsx';
import { MenuPanel } from './parts/menu-panel.tsx';
import { notice } from './parts/notice.ts';
import { panel } from './parts/panels.ts';
import { SettingsPanel } from './parts/settings-panel.tsx';
import { RecordStrip } from './live/record-strip.tsx';
import { NitrogenPanel } from './nitrogen/nitrogen-panel.tsx';
import { PumpCheckPanel } from './plan/pump-check-panel.tsx';
import { RigPanel } from './plan/rig-panel.tsx';
import { VolumePanel } from './plan/volume-panel.tsx';
import { PreparedPanel } from './prepared/prepared-panel.tsx';
import { PreparedStrip } from './prepared/prepared-strip.tsx';
import { ReadInPanel } from './read-in/read-in-panel.tsx';
import { CallPanel } from './rehearse/call-panel.tsx';
import { RehearsalBar } from './rehearse/rehearsal-bar.tsx';
import { RehearsePanel } from './rehearse/rehearse-panel.tsx';
import { ResultsPanel } from './rehearse/results-panel.tsx';
import { RevealPanel } from './rehearse/reveal-panel.tsx';
import { SecondScreenPanel } from './second-screen/second-screen-panel.tsx';
import { SensorsPanel } from './sensors/sensors-panel.tsx';
import { SheetPanel } from './sheet/sheet-panel.tsx';
import { StepsPanel } from './steps/steps-panel.tsx';
import { WorkPanel } from './steps/work-panel.tsx';
import { isRunning } from './store/choose-recording.ts';
import type { Session } from './store/session.ts';
import { speech } from './store/speech.ts';
import { TypeInPanel } from './typed-in/type-in-panel.tsx';
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

function OpenPanel({ session, alerts }: PageProps) {
  const open = panel.value;
  const followed = session.followed.value;
  const recording = session.recording.value;
  if (open === null) return null;
  if (typeof open === 'object') {
    return (
      <WorkPanel
        key={open.work}
        place={open.work}
        session={session}
        followed={followed}
        recording={recording}
      />
    );
  }
  switch (open) {
    case 'menu':
      return <MenuPanel key="menu" recording={recording} />;
    case 'rehearse':
      return <RehearsePanel key="rehearse" session={session} />;
    case 'results':
      return <ResultsPanel key="results" session={session} />;
    case 'call':
      return recording === null ? null : <CallPanel key="call" recording={recording} />;
    case 'reveal':
      if (followed === null || recording === null) return null;
      return (
        <RevealPanel key="reveal" session={session} followed={followed} recording={recording} />
      );
    case 'recordings':
      return <JobsPanel key="recordings" session={session} />;
    case 'new-job':
      if (followed === null || recording === null) return null;
      return <NewJobPanel key="new-job" followed={followed} recording={recording} />;
    case 'sign':
      if (followed === null || recording === null) return null;
      return <SignPanel key="sign" followed={followed} recording={recording} />;
    case 'read-in':
      return <ReadInPanel key="read-in" session={session} />;
    case 'type-in':
      return <TypeInPanel key="type-in" session={session} />;
    case 'sensors':
      return <SensorsPanel key="sensors" recording={recording} sources={session.sources.value} />;
    case 'second-screen':
      return <SecondScreenPanel key="second-screen" />;
    case 'alerts':
      return <AlertsPanel key="alerts" session={session} desk={alerts} />;
    case 'alert-reach':
      return <ReachPanel key="alert-reach" />;
    case 'settings':
      return <SettingsPanel key="settings" />;
    case 'sheet':
      if (followed === null || recording === null) return null;
      return <SheetPanel key="sheet" followed={followed} recording={recording} />;
    case 'prepared':
      return <PreparedPanel key="prepared" followed={followed} recording={recording} />;
    case 'steps':
      if (followed === null || recording === null) return null;
      return <StepsPanel key="steps" session={session} followed={followed} recording={recording} />;
    case 'rig':
      if (followed === null || recording === null) return null;
      return <RigPanel key="rig" followed={followed} recording={recording} />;
    case 'nitrogen':
      if (followed === null || recording === null) return null;
      return <NitrogenPanel key="nitrogen" followed={followed} recording={recording} />;
    case 'cycles':
      if (followed === null || recording === null) return null;
      return <CyclesPanel key="cycles" followed={followed} recording={recording} />;
    case 'hunt':
      if (followed === null || recording === null) return null;
      return <HuntPanel key="hunt" followed={followed} recording={recording} />;
    case 'volume':
      if (followed === null || recording === null) return null;
      return <VolumePanel key="volume" followed={followed} recording={recording} />;
    case 'pump-check':
      if (followed === null || recording === null) return null;
      return <PumpCheckPanel key="pump-check" followed={followed} recording={recording} />;
    case 'note':
      if (followed === null || recording === null) return null;
      return <NotePanel key="note" followed={followed} recording={recording} />;
    case 'more':
      if (followed === null || recording === null) return null;
      return <MorePanel key="more" followed={followed} recording={recording} />;
  }
}
