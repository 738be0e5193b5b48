/** The panel that lies over the page: which one, and what each of them needs to be worth opening. */
import type { JSX } from 'preact';
import type { Recording } from '../protocol/recording.ts';
import type { AlertDesk } from './alerts/alert-desk.ts';
import { AlertsPanel } from './alerts/alerts-panel.tsx';
import { ReachPanel } from './alerts/reach-panel.tsx';
import { CyclesPanel } from './cycles/cycles-panel.tsx';
import { JobsPanel } from './history/jobs-panel.tsx';
import { NewJobPanel } from './history/new-job-panel.tsx';
import { SignPanel } from './history/sign-panel.tsx';
import { HuntPanel } from './hunt/hunt-panel.tsx';
import { MorePanel } from './live/more-panel.tsx';
import { NotePanel } from './live/note-panel.tsx';
import { NitrogenPanel } from './nitrogen/nitrogen-panel.tsx';
import { type MenuEntry, MenuPanel } from './parts/menu-panel.tsx';
import { isPanelOffered, panel, type PlainPanelName } from './parts/panels.ts';
import { SettingsPanel } from './parts/settings-panel.tsx';
import { PumpCheckPanel } from './plan/pump-check-panel.tsx';
import { RigPanel } from './plan/rig-panel.tsx';
import { VolumePanel } from './plan/volume-panel.tsx';
import { PreparedPanel } from './prepared/prepared-panel.tsx';
import { preparedSheetOpen } from './prepared/prepared-sheet-open.tsx';
import { PreparedSheetPanel } from './prepared/prepared-sheet-panel.tsx';
import { ReadInPanel } from './read-in/read-in-panel.tsx';
import { CallPanel } from './rehearse/call-panel.tsx';
import { RehearsePanel } from './rehearse/rehearse-panel.tsx';
import { ResultsPanel } from './rehearse/results-panel.tsx';
import { RevealPanel } from './rehearse/reveal-panel.tsx';
import { SecondScreenPanel } from './second-screen/second-screen-panel.tsx';
import { SensorsPanel } from './sensors/sensors-panel.tsx';
import { type OpenSheet, sheetOfJob } from './sheet/open-sheet.ts';
import { SheetPanel } from './sheet/sheet-panel.tsx';
import { StepsPanel } from './steps/steps-panel.tsx';
import { WorkPanel } from './steps/work-panel.tsx';
import type { FollowedRecording } from './store/followed-recording.ts';
import type { Session } from './store/session.ts';
import { TypeInPanel } from './typed-in/type-in-panel.tsx';

interface Page {
  readonly session: Session;
  readonly alerts: AlertDesk;
}
interface ShownJob extends Page {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

/** What has to be there for a panel; a sheet always is: the job's, or else the prepared one that is at hand. */
type PanelRow =
  | { readonly needs: 'nothing'; readonly draw: (page: Page) => JSX.Element }
  | { readonly needs: 'job'; readonly draw: (shown: ShownJob) => JSX.Element }
  | {
      readonly needs: 'sheet';
      readonly draw: (open: OpenSheet, shown: ShownJob | null) => JSX.Element;
    };

/** In the order of the menu. */
const IN_MENU: Readonly<Record<MenuEntry, PanelRow>> = {
  rehearse: { needs: 'nothing', draw: ({ session }) => <RehearsePanel session={session} /> },
  'type-in': { needs: 'nothing', draw: ({ session }) => <TypeInPanel session={session} /> },
  recordings: { needs: 'nothing', draw: ({ session }) => <JobsPanel session={session} /> },
  'new-job': { needs: 'job', draw: (shown) => <NewJobPanel {...jobOf(shown)} /> },
  prepared: {
    needs: 'nothing',
    draw: ({ session: { followed, recording } }) => (
      <PreparedPanel followed={followed.value} recording={recording.value} />
    ),
  },
  sheet: {
    needs: 'sheet',
    draw: (_, shown) =>
      shown === null ? <PreparedSheetPanel /> : <SheetPanel {...jobOf(shown)} />,
  },
  steps: {
    needs: 'job',
    draw: (shown) => <StepsPanel session={shown.session} {...jobOf(shown)} />,
  },
  sign: { needs: 'job', draw: (shown) => <SignPanel {...jobOf(shown)} /> },
  rig: {
    needs: 'sheet',
    draw: (open, shown) => <RigPanel key={open.key} open={open} hasReadings={shown !== null} />,
  },
  volume: { needs: 'sheet', draw: (open) => <VolumePanel key={open.key} open={open} /> },
  'pump-check': { needs: 'job', draw: (shown) => <PumpCheckPanel {...jobOf(shown)} /> },
  nitrogen: { needs: 'sheet', draw: (open) => <NitrogenPanel key={open.key} open={open} /> },
  cycles: {
    needs: 'sheet',
    draw: (open, shown) => (
      <CyclesPanel key={open.key} open={open} job={shown === null ? null : jobOf(shown)} />
    ),
  },
  hunt: { needs: 'job', draw: (shown) => <HuntPanel {...jobOf(shown)} /> },
  sensors: {
    needs: 'nothing',
    draw: ({ session: { recording, sources } }) => (
      <SensorsPanel recording={recording.value} sources={sources.value} />
    ),
  },
  'second-screen': { needs: 'nothing', draw: () => <SecondScreenPanel /> },
  alerts: {
    needs: 'job',
    draw: ({ session, alerts }) => <AlertsPanel session={session} desk={alerts} />,
  },
  'alert-reach': { needs: 'nothing', draw: () => <ReachPanel /> },
  settings: { needs: 'nothing', draw: () => <SettingsPanel /> },
};

/** Opened by what is done on the page, or from another panel. */
const BESIDE: Readonly<Record<Exclude<PlainPanelName, MenuEntry>, PanelRow>> = {
  menu: {
    needs: 'nothing',
    draw: ({ session }) => <MenuPanel entries={entriesFor(session)} />,
  },
  results: { needs: 'nothing', draw: ({ session }) => <ResultsPanel session={session} /> },
  'read-in': { needs: 'nothing', draw: ({ session }) => <ReadInPanel session={session} /> },
  call: { needs: 'job', draw: ({ recording }) => <CallPanel recording={recording} /> },
  reveal: {
    needs: 'job',
    draw: (shown) => <RevealPanel session={shown.session} {...jobOf(shown)} />,
  },
  note: { needs: 'job', draw: (shown) => <NotePanel {...jobOf(shown)} /> },
  more: { needs: 'job', draw: (shown) => <MorePanel {...jobOf(shown)} /> },
};

const PANELS: Readonly<Record<PlainPanelName, PanelRow>> = { ...IN_MENU, ...BESIDE };

export function OpenPanel({ session, alerts }: Page) {
  const open = panel.value;
  const page = { session, alerts };
  const [followed, recording] = [session.followed.value, session.recording.value];
  const shown = followed === null || recording === null ? null : { ...page, followed, recording };
  if (open === null) return null;
  if (typeof open === 'string') return drawn(PANELS[open], page, shown);
  if ('prepared' in open) return drawn(PANELS[open.prepared], page, null);
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

function drawn(row: PanelRow, page: Page, shown: ShownJob | null): JSX.Element | null {
  switch (row.needs) {
    case 'nothing':
      return row.draw(page);
    case 'job':
      return shown === null ? null : row.draw(shown);
    case 'sheet':
      return row.draw(
        shown === null ? preparedSheetOpen() : sheetOfJob(shown.followed, shown.recording),
        shown,
      );
  }
}

function jobOf({ followed, recording }: ShownJob): Pick<ShownJob, 'followed' | 'recording'> {
  return { followed, recording };
}

/** Without a recording there is nothing in what is about one; and not every screen may change things. */
function entriesFor({ followed, recording }: Session): MenuEntry[] {
  const isShown = followed.value !== null && recording.value !== null;
  return Object.keys(IN_MENU)
    .filter((name): name is MenuEntry => name in IN_MENU)
    .filter((name) => isPanelOffered(name) && (isShown || IN_MENU[name].needs !== 'job'));
}
