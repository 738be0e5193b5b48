/** What the screen says of the present: forecast, verdict, or why there is neither. */
import type { ProblemCode } from '../../protocol/problems.ts';
import type { Recording } from '../../protocol/recording.ts';
import { clockWords } from '../parts/clock-words.ts';
import { choices } from '../store/choices.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import type { Freshness } from '../store/freshness.ts';
import type { SaidConclusion } from '../words/said-conclusion.ts';
import { sayProblem } from '../words/say-connection.ts';
import { sayForecast } from '../words/say-forecast.ts';
import { sayCountedFrom } from '../words/say-typed-in.ts';
import { sayVerdict } from '../words/say-verdict.ts';
import { sayWithheld } from '../words/say-withheld.ts';

export function saidNow(
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
