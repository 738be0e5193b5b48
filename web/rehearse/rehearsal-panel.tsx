/** What else can be done in the rehearsal at hand: at the simulated rig, and with the rehearsal itself. */
import type { MarkKind } from '../../protocol/mark.ts';
import type { Recording } from '../../protocol/recording.ts';
import { steerRehearsal } from '../connection/bridge-api.ts';
import { MarkButton } from '../live/mark-buttons.tsx';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import type { Session } from '../store/session.ts';
import { CAUTIONS } from '../words/say-caution.ts';
import { atHand, begin } from './at-hand.ts';

/** What the buttons under the chart have no room for. */
const OTHER_WORK: readonly MarkKind[] = [
  'cores_out',
  'oil_changed',
  'battery_changed',
  'joints_tightened',
  'sections_opened',
  'stub_shut',
  'stub_opened',
  'nitrogen_break',
];

interface RehearsalPanelProps {
  readonly session: Session;
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function RehearsalPanel({ session, followed, recording }: RehearsalPanelProps) {
  const { start } = atHand(recording);
  return (
    <Panel title="This rehearsal" testId="rehearsal-panel">
      <h2>At the rig</h2>
      <div class="choices">
        {OTHER_WORK.map((kind) => (
          <MarkButton key={kind} kind={kind} followed={followed} recording={recording} />
        ))}
      </div>
      <p class="quiet">
        Each is done to the simulated rig at once. A nitrogen break shuts the valve to the pump and
        fills the system; opening the valve again ends it. On a real job: {CAUTIONS.nitrogen[0]}
      </p>
      <h2>The rehearsal</h2>
      <div class="choices">
        {start !== null && (
          <button type="button" data-testid="restart" onClick={() => void begin(session, start)}>
            Begin it again
          </button>
        )}
        <button
          type="button"
          data-testid="stop"
          onClick={() => {
            void tell(steerRehearsal({ stop: true }));
            panel.value = null;
          }}
        >
          Stop it
        </button>
      </div>
      {start !== null && (
        <p class="quiet">Number {start.seed}: the same number gives the same rehearsal again.</p>
      )}
    </Panel>
  );
}
