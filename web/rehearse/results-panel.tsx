/** A trainee's calls beside what it was, and the score. */
import { useEffect, useState } from 'preact/hooks';
import type { RehearsalCard, RehearsalResult } from '../../protocol/api.ts';
import { scoreCalls } from '../analysis/call-score.ts';
import { listRehearsals, listResults } from '../connection/bridge-api.ts';
import { clockWords } from '../parts/clock-words.ts';
import { tell } from '../parts/notice.ts';
import { Panel } from '../parts/panel.tsx';
import { panel } from '../parts/panels.ts';
import { trainee } from '../store/rehearsed.ts';
import type { Session } from '../store/session.ts';
import { REHEARSE_WORDS, sayRehearsed } from '../words/say-rehearsal.ts';
import { listScore, RESULT_WORDS, sayResult, sayTooFew } from '../words/say-score.ts';
import { traineesOf } from './trainees.ts';

export function ResultsPanel({ session }: { readonly session: Session }) {
  const [results, setResults] = useState<readonly RehearsalResult[] | null>(null);
  const [cards, setCards] = useState<readonly RehearsalCard[]>([]);
  const [chosen, setChosen] = useState(() => trainee.peek());
  useEffect(() => {
    void tell(listResults()).then((found) => setResults(found ?? []));
    void tell(listRehearsals()).then((found) => setCards(found ?? []));
  }, []);
  const names = traineesOf(results ?? []);
  const whose = names.includes(chosen) ? chosen : (names[0] ?? '');
  const own = results?.filter((result) => result.trainee === whose) ?? [];
  const placeOf = (scenario: string) => cards.find(({ name }) => name === scenario)?.place ?? null;
  return (
    <Panel title={RESULT_WORDS.title} testId="results-panel">
      {results === null && <p>{REHEARSE_WORDS.asking}</p>}
      {results?.length === 0 && <p>{RESULT_WORDS.none}</p>}
      {names.length > 0 && (
        <label class="row">
          {RESULT_WORDS.trainee}
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
              {result.cause === result.truth ? RESULT_WORDS.right : RESULT_WORDS.wrong}
            </strong>
            <div>
              <b>{sayRehearsed(result.scenario, result.seed, placeOf(result.scenario))}</b>
              <span>
                {sayResult(result)} {clockWords(result.revealedAtMs)}
              </span>
            </div>
            <button
              type="button"
              onClick={() => {
                session.open(result.recordingId, true);
                panel.value = null;
              }}
            >
              {RESULT_WORDS.open}
            </button>
          </li>
        ))}
      </ul>
    </Panel>
  );
}

function Score({ results }: { readonly results: readonly RehearsalResult[] }) {
  const score = scoreCalls(results);
  if (score === null) return <p data-testid="score">{sayTooFew(results.length)}</p>;
  return (
    <dl class="facts" data-testid="score">
      {listScore(score).map(({ name, value, remark }) => (
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
