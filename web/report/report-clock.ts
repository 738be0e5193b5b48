/** Moments in a report: on the recording's own clock, and on the wall's. */
import { sayMoment } from '../words/say-duration.ts';
import { knowsWallTime } from '../../protocol/recording.ts';
import { sayWallTime } from '../words/say-wall-time.ts';
import type { ReportFacts } from './report-model.ts';

/** '1:02:30' and, where the wall clock is known, '14:05:09', with the date once it is another. */
export function momentCells(facts: ReportFacts, elapsedS: number): string[] {
  const { recording, offsetMinutes, speech } = facts;
  if (!knowsWallTime(recording.origin)) return [sayMoment(elapsedS)];
  const began = sayWallTime(recording.startedAtMs, offsetMinutes, speech);
  const at = sayWallTime(
    recording.startedAtMs + Math.round(elapsedS * 1000),
    offsetMinutes,
    speech,
  );
  const [date = '', time = ''] = at.split(' ');
  return [sayMoment(elapsedS), began.startsWith(date) ? time : at];
}

/** The headings over `momentCells`. */
export function momentColumns({ recording }: ReportFacts, at: string, clock: string): string[] {
  return knowsWallTime(recording.origin) ? [at, clock] : [at];
}
