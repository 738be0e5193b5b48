/** Why neither forecast nor verdict is shown: they would speak of a present that nobody measures. */
import type { ConnectionWords } from './say-connection.ts';
import type { SaidConclusion } from './said-conclusion.ts';
import type { Speech } from './speech.ts';

export function sayWithheld(
  why: 'connection' | 'sensor' | 'record',
  since: string,
  problem: ConnectionWords | null,
  { wording }: Speech,
): SaidConclusion {
  const words = wording.withheld;
  if (why === 'connection') {
    return {
      tone: 'warning',
      headline: words.bridge,
      sure: words.nothingSince({ since }),
      detail: [words.untilBack, words.recordGoesOn],
    };
  }
  if (why === 'record') {
    return {
      tone: 'warning',
      headline: words.notKept,
      sure: words.since({ since }),
      detail: [words.untilKept, words.whatToDo],
    };
  }
  return {
    tone: 'warning',
    headline: words.noNew,
    sure: words.since({ since }),
    detail: [words.untilThereAre, ...(problem === null ? [] : [problem.text, problem.remedy])],
  };
}
