/** The one sentence: forecast or verdict with its interval, and what lies behind it. */
import type { ProblemCode } from '../../protocol/problems.ts';
import type { Recording } from '../../protocol/recording.ts';
import { clockWords } from '../parts/clock-words.ts';
import { choices } from '../store/choices.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import { type Freshness, isCurrent } from '../store/freshness.ts';
import type { SaidConclusion } from '../words/said-conclusion.ts';
import { sayForecast } from '../words/say-forecast.ts';
import { sayProblem } from '../words/say-connection.ts';
import { sayVerdict } from '../words/say-verdict.ts';
import { sayCountedFrom } from '../words/say-typed-in.ts';
import { sayWithheld } from '../words/say-withheld.ts';
import { HoldChanceLine } from './hold-chance-line.tsx';
import { NumbersBehind, RuleBeside } from './numbers-behind.tsx';

interface SayCardProps {
  readonly followed: FollowedRecording;
  readonly recording: Recording;
  readonly state: Freshness;
  readonly problem: ProblemCode | null;
}

export function SayCard({ followed, recording, state, problem }: SayCardProps) {
  const said = sayNow(followed, recording, state, problem);
  const conclusions = followed.conclusions.value;
  if (said === null) return null;
  const rise = conclusions?.stage.name === 'rise' ? conclusions.rise : null;
  const withheld = state.kind === 'stale' || state.kind === 'catching_up';
  return (
    <section class={`say say-${said.tone}`} data-testid="say" aria-live="off">
      <h2 data-testid="headline">{said.headline}</h2>
      <p data-testid="detail">{said.detail.join(' ')}</p>
      {isCurrent(state) && conclusions !== null && <HoldChanceLine conclusions={conclusions} />}
      {!withheld && rise !== null && (
        <>
          <RuleBeside followed={followed} rise={rise} />
          <NumbersBehind followed={followed} rise={rise} />
        </>
      )}
    </section>
  );
}

function sayNow(
  followed: FollowedRecording,
  recording: Recording,
  state: Freshness,
  problem: ProblemCode | null,
): SaidConclusion | null {
  const conclusions = followed.conclusions.value;
  if (state.kind === 'stale') {
    const since = clockWords(state.sinceMs, true);
    return sayWithheld(state.why, since, sayProblem(state.why === 'sensor' ? problem : null));
  }
  if (state.kind === 'catching_up' || conclusions === null) return null;
  const sheet = followed.sheet.value;
  if (conclusions.stage.name === 'rise' && conclusions.rise !== null) {
    return sayVerdict(conclusions.rise, choices.value);
  }
  // A recording that is over has no time to come.
  if (state.kind === 'ended' || conclusions.forecast === null) return null;
  const said = sayForecast(conclusions.forecast, conclusions, sheet, choices.value);
  if (state.kind !== 'typed_in') return said;
  const asOf = sayCountedFrom(clockWords(recording.startedAtMs + conclusions.nowS * 1000));
  return { ...said, detail: [...said.detail, asOf] };
}
