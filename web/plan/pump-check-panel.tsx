/** The pump alone with the sensor: what it should reach, how long that takes, and what the curve says of it. */
import type { Recording } from '../../protocol/recording.ts';
import { Panel } from '../parts/panel.tsx';
import { enterNow } from '../sheet/enter-now.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { speech } from '../store/speech.ts';
import { sayDuration } from '../words/say-duration.ts';
import { sayPressure } from '../words/say-pressure.ts';
import { sayPumpShouldReach } from '../words/say-plan.ts';
import { checkPump, WITHIN_S } from './pump-check.ts';
import { thinnedFall } from './thinned-fall.ts';

interface PumpCheckPanelProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
}

export function PumpCheckPanel({ followed, recording }: PumpCheckPanelProps) {
  const words = speech.value.wording.planning.pumpCheck;
  const sheet = followed.sheet.value;
  // Looked at anew with each reading.
  const latest = followed.latest.value;
  const nowS = latest?.elapsedS ?? 0;
  const pumpOnS = pumpOn(followed);
  const check = checkPump({
    readings: pumpOnS === null ? [] : thinnedFall(followed.readings, pumpOnS, nowS),
    pumpOnS,
    nowS,
    seesPump: sheet.sensorSees === 'pump_side',
    ultimatePa: sheet.pumpUltimatePa,
  });
  return (
    <Panel title={words.title} testId="pump-check-panel">
      <p>{words.help}</p>
      <section class="rig-result" role="status">
        <dl>
          <dt>{words.shouldReach}</dt>
          <dd>{sayPumpShouldReach(sheet.pumpUltimatePa, check.shouldReachPa, speech.value)}</dd>
          <dt>{words.within}</dt>
          <dd>{sayDuration(WITHIN_S)}</dd>
          {check.pressurePa !== null && (
            <>
              <dt>{words.now}</dt>
              <dd>{sayPressure(check.pressurePa, speech.value)}</dd>
            </>
          )}
        </dl>
        <p class="rig-limit" data-testid="pump-verdict" data-verdict={check.verdict}>
          {words.verdicts[check.verdict]}
        </p>
      </section>
      {check.verdict === 'wrong_view' && recording.open && (
        <button
          type="button"
          class="urgent"
          data-testid="sees-pump"
          onClick={() => void enterNow(followed, recording, { sensorSees: 'pump_side' })}
        >
          {words.setView}
        </button>
      )}
    </Panel>
  );
}

/** By the latest mark of it, or by the curve where nobody marked it. */
function pumpOn(followed: FollowedRecording): number | null {
  const marked = followed.marks.value.filter(({ kind }) => kind === 'pump_on').at(-1);
  return marked?.elapsedS ?? followed.conclusions.value?.pullDownS ?? null;
}
