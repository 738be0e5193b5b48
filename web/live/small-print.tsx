/** What one reads from near, under the chart: what goes with the sentence, why, and the numbers behind it. */
import type { Recording } from '../../protocol/recording.ts';
import { clockWords } from '../parts/clock-words.ts';
import { DeviationNote } from '../plan/deviation-note.tsx';
import type { ExpectedCurve } from '../plan/expected-pull-down.ts';
import { CycleLine } from '../cycles/cycle-line.tsx';
import { FasterNote } from '../plan/faster-note.tsx';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { type Freshness, isCurrent } from '../store/freshness.ts';
import { speech } from '../store/speech.ts';
import type { SaidConclusion } from '../words/said-conclusion.ts';
import { sayWhen } from '../words/say-origin.ts';
import { saySensors } from '../words/say-sensor.ts';
import { AskView } from './ask-view.tsx';
import { Causes } from './causes.tsx';
import { ShutOffNote } from './shut-off-note.tsx';
import { HoldChanceLine } from './hold-chance-line.tsx';
import { NumbersBehind, RuleBeside } from './numbers-behind.tsx';

interface SmallPrintProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
  readonly state: Freshness;
  readonly said: SaidConclusion | null;
  /** What the rig should manage, or null while that is not known. */
  readonly expected: ExpectedCurve | null;
  /** The same at the hose: nothing of the system can come down faster. */
  readonly soonest: ExpectedCurve | null;
}

export function SmallPrint(props: SmallPrintProps) {
  const { followed, recording, state, said, expected, soonest } = props;
  const conclusions = followed.conclusions.value;
  const rise = conclusions?.stage.name === 'rise' ? conclusions.rise : null;
  const withheld = state.kind === 'stale' || state.kind === 'catching_up';
  const current = isCurrent(state);
  return (
    <section
      class="small-print"
      data-testid="small-print"
      aria-label={speech.value.wording.smallPrint.name}
    >
      {recording.sensors.length > 1 && <SensorChoice followed={followed} recording={recording} />}
      <ShutOffNote followed={followed} recording={recording} />
      {said !== null && said.detail.length > 0 && (
        <p data-testid="detail">{said.detail.join(' ')}</p>
      )}
      {current && conclusions !== null && <HoldChanceLine conclusions={conclusions} />}
      {current && <CycleLine followed={followed} />}
      {current && soonest !== null && <FasterNote followed={followed} curve={soonest} />}
      {current && expected !== null && <DeviationNote followed={followed} curve={expected} />}
      {!withheld && rise !== null && (
        <>
          <RuleBeside followed={followed} rise={rise} />
          <NumbersBehind followed={followed} rise={rise} />
        </>
      )}
      {current && <Causes conclusions={conclusions} />}
      <AskView followed={followed} recording={recording} />
      <p class="quiet">
        {sayWhen(recording, clockWords(recording.startedAtMs, speech.value), speech.value)}
      </p>
    </section>
  );
}

/** Which sensor is watched; the others stand beside it. */
function SensorChoice({ followed, recording }: Pick<SmallPrintProps, 'followed' | 'recording'>) {
  const names = saySensors(recording.sensors, speech.value);
  return (
    <label class="sensor-choice">
      {speech.value.wording.beside.choose}{' '}
      <select
        data-testid="sensor-choice"
        value={followed.channel.value}
        onChange={(event) => followed.watch(Number(event.currentTarget.value))}
      >
        {recording.sensors.map((sensor, channel) => (
          <option key={sensor.id} value={channel}>
            {names[channel]}
          </option>
        ))}
      </select>
    </label>
  );
}
