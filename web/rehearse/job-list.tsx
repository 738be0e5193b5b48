/** The jobs on offer: a line each, and the whole of one at a time. */
import type { StartRehearsal } from '../../protocol/api.ts';
import { speech } from '../store/speech.ts';
import { sayPlace } from '../words/say-rehearsal.ts';
import { DrawnJob } from './drawn-job.tsx';
import type { SortedCards } from './job-cards.ts';
import { randomSeed } from './random-seed.ts';

interface JobListProps {
  readonly cards: SortedCards;
  /** Names of those that the trainee has called before. */
  readonly called: ReadonlySet<string>;
  readonly busy: boolean;
  readonly start: (job: Pick<StartRehearsal, 'name' | 'seed'>) => void;
}

export function JobList({ cards: { jobs, drawn }, called, busy, start }: JobListProps) {
  const words = speech.value.wording.rehearse;
  return (
    <section class="jobs">
      <h2>{words.jobs}</h2>
      {drawn.length > 0 && (
        <details name="job" data-testid="rehearsal-drawn">
          <summary>
            <b>{words.drawn}</b>
          </summary>
          <DrawnJob cards={drawn} busy={busy} start={start} />
        </details>
      )}
      {jobs.map(({ name, place, situation }) => (
        <details key={name} name="job" data-testid={`rehearsal-${name}`}>
          <summary>
            {sayPlace(name, speech.value) === null ? (
              <b lang="en">{place}</b>
            ) : (
              <b>{sayPlace(name, speech.value)}</b>
            )}
            {called.has(name) && <i>{words.called}</i>}
          </summary>
          <p lang="en">{situation}</p>
          <button
            type="button"
            class="urgent"
            disabled={busy}
            data-testid={`start-${name}`}
            onClick={() => start({ name, seed: randomSeed() })}
          >
            {words.start}
          </button>
        </details>
      ))}
    </section>
  );
}
