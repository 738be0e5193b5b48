/** What a debrief found, as sentences. */
import type { Finding, Grade } from '../analysis/training/finding.ts';
import type { MarkKind } from '../../protocol/mark.ts';
import { sayDuration, sayMoment } from './say-duration.ts';
import { sayPressure } from './say-pressure.ts';
import type { Speech } from './speech.ts';

/** The order in which they are read. */
export const GRADES: readonly Grade[] = ['well', 'early', 'late', 'missed'];

export function sayFinding(finding: Finding, speech: Speech): string {
  const { pressurePa, lastedS } = finding;
  const said = saySentence(finding, speech);
  const figures = [
    ...(lastedS === null ? [] : [sayDuration(lastedS)]),
    ...(pressurePa === null ? [] : [sayPressure(pressurePa, speech)]),
  ];
  if (figures.length === 0) return said;
  const sentence = said.replace(/\.$/u, '');
  return speech.wording.debrief.withFigures({ sentence, figures: figures.join(', ') });
}

function saySentence({ kind, cure }: Finding, { wording }: Speech): string {
  const words = wording.debrief;
  const cures: Partial<Record<MarkKind, string>> = words.cures;
  const name = cure === null ? undefined : cures[cure];
  if (name === undefined) return words.findings[kind];
  if (kind === 'cure_tried') return words.cureTried({ cure: name });
  return kind === 'other_cure_tried' ? words.otherCureTried({ cure: name }) : words.findings[kind];
}

/** @param originS data time from which moments are counted */
export function sayFindingMoment({ atS }: Finding, originS: number): string | null {
  return atS === null ? null : sayMoment(atS - originS);
}
