/**
 * What a trainee did well and what they missed, from the facts of a rehearsal and what it really
 * was. Pure, and without wording. Only for after the reveal.
 */
import type { Call, Reveal } from '../../../protocol/api.ts';
import type { Mark } from '../../../protocol/mark.ts';
import type { Sheet } from '../../../protocol/sheet.ts';
import type { History } from '../readings/history.ts';
import { markedHolds } from '../stages/holds.ts';
import { callFindings } from './call-findings.ts';
import type { Finding } from './finding.ts';
import { workFindings } from './work-findings.ts';

export interface Rehearsed {
  readonly history: History;
  /** In any order. */
  readonly marks: readonly Mark[];
  readonly sheet: Sheet;
  readonly call: Call | null;
  readonly reveal: Pick<Reveal, 'cause' | 'toldS' | 'ballastOpenAtStart'>;
  /** A helper worked pump and valves: nothing to say of that, the call alone was the trainee's. */
  readonly helped: boolean;
}

/** The call first, then the work in the order of the job. */
export function debrief({ history, marks, sheet, call, reveal, helped }: Rehearsed): Finding[] {
  const ordered = [...marks].sort((a, b) => a.elapsedS - b.elapsedS || a.id - b.id);
  const endS = history.lastS ?? 0;
  const holds = markedHolds(ordered, endS);
  const { cause, ballastOpenAtStart } = reveal;
  const work = { history, marks: ordered, holds, sheet, cause, ballastOpenAtStart, endS };
  return [
    ...callFindings(call, { reveal, holds, holdS: sheet.holdS }),
    ...(helped ? [] : workFindings(work)),
  ];
}
