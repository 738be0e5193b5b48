/** The one number: large while it is true of now, struck through and dated when it is not. */
import type { Recording } from '../../protocol/recording.ts';
import { clockWords } from '../parts/clock-words.ts';
import { choices } from '../store/choices.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import type { Freshness } from '../store/freshness.ts';
import { pressureDigits } from '../words/say-pressure.ts';
import { sayCondition } from '../words/say-condition.ts';
import { sayTypedAt } from '../words/say-typed-in.ts';
import { sayTrend } from '../words/say-trend.ts';

interface ReadingViewProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
  readonly state: Freshness;
}

export function ReadingView({ followed, recording, state }: ReadingViewProps) {
  const reading = followed.latest.value;
  const conclusions = followed.conclusions.value;
  const unit = choices.value.pressure;
  const stale = state.kind === 'stale';
  if (reading === null) {
    return <p class="no-number">No reading yet</p>;
  }
  const readMs = recording.startedAtMs + reading.elapsedS * 1000;
  const words = sayCondition(reading.condition);
  const digits = reading.pressurePa === null ? null : pressureDigits(reading.pressurePa, unit);
  const measured =
    digits !== null && (reading.condition === 'ok' || reading.condition === 'warming_up');
  const trend = conclusions === null || !measured ? '' : sayTrend(conclusions, unit);
  return (
    <div class="reading" data-testid="reading" data-state={state.kind}>
      {measured ? (
        <div class={`number ${numberSize(digits)}`} data-testid="number">
          {stale ? <s>{digits}</s> : digits}
        </div>
      ) : (
        <div class="no-number" data-testid="no-number">
          {words}
        </div>
      )}
      <div class="unit">
        <span data-testid="unit">{measured ? unit : ''}</span>
        <i data-testid="trend">
          {state.kind === 'live' || state.kind === 'paused' ? trend : notNow(state, readMs)}
        </i>
      </div>
      {measured && reading.condition === 'warming_up' && <p class="quiet">{words}</p>}
    </div>
  );
}

/** @param readMs wall-clock moment of the reading, milliseconds since 1970 UTC */
function notNow(state: Freshness, readMs: number): string {
  switch (state.kind) {
    case 'typed_in':
      return sayTypedAt(clockWords(readMs, true));
    case 'stale':
      return `not live since ${clockWords(state.sinceMs, true)}`;
    case 'ended':
      return 'the last reading';
    case 'catching_up':
      return 'catching up';
    case 'live':
    case 'paused':
      return '';
  }
}

/** So that every number fills the column and none is cut off. */
function numberSize(digits: string): string {
  const wide = digits.replace(/[.\u00a0]/gu, '').length + (digits.length > 4 ? 0.6 : 0);
  if (wide <= 4) return 'number-4';
  return wide <= 5.6 ? 'number-5' : 'number-7';
}
