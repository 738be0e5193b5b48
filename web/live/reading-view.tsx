/** The one number: large while it is true of now, struck through and dated when it is not. */
import type { Recording } from '../../protocol/recording.ts';
import { sensorShutOff } from '../analysis/closing/closed-up.ts';
import { clockWords } from '../parts/clock-words.ts';
import { speech } from '../store/speech.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import type { Freshness } from '../store/freshness.ts';
import { sayCondition } from '../words/say-condition.ts';
import { pressureDigits, sayUnit } from '../words/say-pressure.ts';
import { sayNotNow } from '../words/say-reading.ts';
import { sayTrend, trendWay } from '../words/say-trend.ts';
import { TrendSign } from './trend-sign.tsx';

interface ReadingViewProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
  readonly state: Freshness;
}

export function ReadingView({ followed, recording, state }: ReadingViewProps) {
  const reading = followed.latest.value;
  if (reading === null) return <p class="no-number">{speech.value.wording.reading.none}</p>;
  const words = sayCondition(reading.condition, speech.value);
  const digits =
    reading.pressurePa === null ? null : pressureDigits(reading.pressurePa, speech.value);
  const ofStub = isOfStub(followed);
  const measured =
    digits !== null && (reading.condition === 'ok' || reading.condition === 'warming_up');
  return (
    <div
      class="reading"
      data-testid="reading"
      data-state={state.kind}
      data-of={ofStub ? 'stub' : 'all'}
    >
      {measured ? (
        <div class="number-row">
          <div class={`number wide-${width(digits)}`} data-testid="number">
            {state.kind === 'stale' ? <s>{digits}</s> : digits}
          </div>
          <span class="unit" data-testid="unit">
            {sayUnit(speech.value)}
          </span>
        </div>
      ) : (
        <div class="no-number" data-testid="no-number">
          {words}
        </div>
      )}
      <Trend
        followed={followed}
        recording={recording}
        state={state}
        measured={measured}
        ofStub={ofStub}
      />
      {measured && reading.condition === 'warming_up' && <p class="quiet">{words}</p>}
    </div>
  );
}

interface TrendProps extends ReadingViewProps {
  readonly measured: boolean;
  /** Of the sensor's own stub: the trend that was concluded is the system's. */
  readonly ofStub: boolean;
}

function Trend({ followed, recording, state, measured, ofStub }: TrendProps) {
  const conclusions = followed.conclusions.value;
  const reading = followed.latest.value;
  const live = state.kind === 'live' || state.kind === 'paused';
  const readMs = recording.startedAtMs + (reading?.elapsedS ?? 0) * 1000;
  const way = live && measured && !ofStub && conclusions !== null ? trendWay(conclusions) : null;
  const words = way === null || conclusions === null ? '' : sayTrend(conclusions, speech.value);
  const isStub = ofStub && measured;
  const notNow = live
    ? ''
    : sayNotNow(
        state.kind === 'stale' && state.why === 'record' ? 'not_kept' : state.kind,
        clockWords(state.kind === 'stale' ? state.sinceMs : readMs, speech.value, true),
        speech.value,
      );
  return (
    <div class="trend">
      {way !== null && <TrendSign way={way} />}
      <i data-testid="trend">
        {[notNow, isStub ? speech.value.wording.reading.ofStub : words]
          .filter((text) => text !== '')
          .join(', ')}
      </i>
    </div>
  );
}

function isOfStub(followed: FollowedRecording): boolean {
  const conclusions = followed.conclusions.value;
  return conclusions !== null && sensorShutOff(followed.marks.value, conclusions) !== null;
}

/** In digits, a point or a gap being half of one: so that every number fills its column and none is cut off. */
function width(digits: string): number {
  const marks = digits.replace(/\d/gu, '').length;
  return Math.min(9, Math.max(3, Math.ceil(digits.length - marks / 2)));
}
