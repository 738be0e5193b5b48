/** A trainee's calls beside what it was, and the score. */
import { useEffect, useState } from 'preact/hooks';
import type { RehearsalResult } from '../../protocol/api.ts';
import { scoreCalls } from '../analysis/training/call-score.ts';
import { listResults } from '../connection/bridge-api.ts';
import { clockWords } from '../parts/clock-words.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import { trainee } from '../store/rehearsed.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { sayRehearsed } from '../words/say-rehearsal.ts';
import { listScore, sayResult, sayTooFew } from '../words/say-score.ts';
import { traineesOf } from './trainees.ts';

export function ResultsPanel({ session }: { readonly session: Session }) {
  const { rehearse, score: words } = speech.value.wording;
  const [results, setResults] = useState<readonly RehearsalResult[] | null>(null);
  const [chosen, setChosen] = useState(() => trainee.peek());
  useEffect(() => {
    void tell(listResults()).then((found) => setResults(found ?? []));
  }, []);
  const names = traineesOf(results ?? []);
  const whose = names.includes(chosen) ? chosen : (names[0] ?? '');
  const own = results?.filter((result) => result.trainee === whose) ?? [];
  return (
    <Panel title={words.title} testId="results-panel">
      {results === null && <p>{rehearse.asking}</p>}
      {results?.length === 0 && <p>{words.none}</p>}
      {names.length > 0 && (
        <label class="row">
          {words.trainee}
          <select
            name="whose"
            value={whose}
            onChange={(event) => setChosen(event.currentTarget.value)}
          >
            {names.map((name) => (
              <option key={name} value={name}>
                {name}
              </option>
            ))}
          </select>
        </label>
      )}
      {own.length > 0 && <Score results={own} />}
      <ul class="recordings results">
        {own.map((result) => (
          <li key={result.recordingId} data-testid={`result-${result.recordingId}`}>
            <strong class={result.cause === result.truth ? 'right' : 'wrong'}>
              {result.cause === result.truth ? words.right : words.wrong}
            </strong>
            <div>
              <b>{sayRehearsed(result.scenario, result.seed, speech.value)}</b>
              <span>
                {sayResult(result, speech.value)} {clockWords(result.revealedAtMs, speech.value)}
              </span>
            </div>
            <button
              type="button"
              onClick={() => {
                session.open(result.recordingId, true);
                panel.value = null;
              }}
            >
              {words.open}
            </button>
          </li>
        ))}
      </ul>
    </Panel>
  );
}

function Score({ results }: { readonly results: readonly RehearsalResult[] }) {
  const score = scoreCalls(results);
  if (score === null) return <p data-testid="score">{sayTooFew(results.length, speech.value)}</p>;
  return (
    <dl class="facts" data-testid="score">
      {listScore(score, speech.value).map(({ name, value, remark }) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>
            {value} <small>{remark}</small>
          </dd>
        </div>
      ))}
    </dl>
  );
}
