/** How the calls have gone, by the name under which they were made. */
import { useEffect, useState } from 'preact/hooks';
import type { RehearsalResult } from '../../protocol/api.ts';
import { scoreCalls } from '../analysis/call-score.ts';
import { listResults } from '../connection/bridge-api.ts';
import { clockWords } from '../parts/clock-words.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import { sayResult, sayScore } from '../words/say-results.ts';
import { trainee } from './trainee.ts';

/** More than these say no more on one screen; the score counts them all. */
const MOST_SHOWN = 30;

export function ResultsPanel() {
  const [results, setResults] = useState<readonly RehearsalResult[] | null>(null);
  const [name, setName] = useState(trainee);
  useEffect(() => {
    void tell(listResults()).then((found) => setResults(found ?? []));
  }, []);
  const names = [...new Set(results?.map((result) => result.trainee))].sort();
  const shown = names.includes(name) ? name : (names[0] ?? '');
  const own = results?.filter((result) => result.trainee === shown) ?? [];
  return (
    <Panel title="How the calls have gone" testId="results-panel">
      {results === null && <p>Asking the bridge…</p>}
      {results !== null && names.length === 0 && (
        <p>No rehearsal has been called and revealed on this computer yet.</p>
      )}
      {names.length > 0 && (
        <>
          <label>
            Whose{' '}
            <select value={shown} onChange={(event) => setName(event.currentTarget.value)}>
              {names.map((each) => (
                <option key={each} value={each}>
                  {each}
                </option>
              ))}
            </select>
          </label>
          <p data-testid="score">{sayScore(own.length, scoreCalls(own))}</p>
          <ul class="recordings">
            {own.slice(0, MOST_SHOWN).map((result) => {
              const { title, text } = sayResult(result);
              return (
                <li key={result.recordingId} data-testid="result">
                  <div>
                    <b>{title}</b>
                    <span>
                      {clockWords(result.revealedAtMs)}. {text}
                    </span>
                  </div>
                </li>
              );
            })}
          </ul>
          {own.length > MOST_SHOWN && (
            <p class="quiet">
              The latest {MOST_SHOWN}; the score counts all {own.length}.
            </p>
          )}
        </>
      )}
    </Panel>
  );
}
