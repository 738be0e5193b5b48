/** Why neither forecast nor verdict is shown: they would speak of a present that nobody measures. */
import type { ConnectionWords } from './say-connection.ts';
import type { SaidConclusion } from './said-conclusion.ts';

export function sayWithheld(
  why: 'connection' | 'sensor',
  since: string,
  problem: ConnectionWords | null,
): SaidConclusion {
  if (why === 'connection') {
    return {
      tone: 'warning',
      headline: 'This page has lost the bridge',
      sure: `nothing has come since ${since}`,
      detail: [
        'Forecast and verdict wait until it is back.',
        'The record goes on as long as the bridge runs; what is missing here is fetched by itself.',
      ],
    };
  }
  return {
    tone: 'warning',
    headline: 'No new readings',
    sure: `since ${since}`,
    detail: [
      'Forecast and verdict wait until there are.',
      ...(problem === null ? [] : [problem.text, problem.remedy]),
    ],
  };
}
