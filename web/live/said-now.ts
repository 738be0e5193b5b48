/** What the screen says of the present: forecast, verdict, or why there is neither. */
import type { ProblemCode } from '../../protocol/problems.ts';
import type { Recording } from '../../protocol/recording.ts';
import { clockWords } from '../parts/clock-words.ts';
import type { FollowedRecording } from '../store/followed-recording.ts';
import type { Freshness } from '../store/freshness.ts';
import { speech } from '../store/speech.ts';
import type { SaidConclusion } from '../words/said-conclusion.ts';
import { sayProblem } from '../words/say-connection.ts';
import { sayForecast } from '../words/say-forecast.ts';
import { saySensors } from '../words/say-sensor.ts';
import { sayTogether } from '../words/say-together.ts';
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
    const since = clockWords(state.sinceMs, speech.value, true);
    const said = sayProblem(state.why === 'sensor' ? problem : null, speech.value);
    return sayWithheld(state.why, since, said, speech.value);
  }
  if (state.kind === 'catching_up' || conclusions === null) return null;
  const sheet = followed.sheet.value;
  if (conclusions.stage.name === 'rise' && conclusions.rise !== null) {
    const said = sayVerdict(conclusions.rise, speech.value);
    const names = saySensors(recording.sensors, speech.value);
    return sayTogether(said, conclusions.rise, followed.together.value, names, speech.value);
  }
  // A recording that is over has no time to come.
  if (state.kind === 'ended' || conclusions.forecast === null) return null;
  const said = sayForecast(conclusions.forecast, conclusions, sheet, speech.value);
  if (state.kind !== 'typed_in') return said;
  const at = clockWords(recording.startedAtMs + conclusions.nowS * 1000, speech.value);
  return { ...said, detail: [...said.detail, speech.value.wording.reading.asOf({ at })] };
}
