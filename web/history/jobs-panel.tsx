/** All jobs: looked for, opened with their curve, laid behind another, reported, put away. */
import { useEffect } from 'preact/hooks';
import { VERDICTS } from '../../protocol/verdicts.ts';
import { Panel } from '../parts/panel.tsx';
import { PickOne } from '../parts/pick-one.tsx';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { may } from '../store/this-screen.ts';
import { done, DONE_ID, found, keepLooking, lookFurther, wanted } from './job-search.ts';
import { JobRow } from './job-row.tsx';
import { BACKUP_ADDRESS } from '../connection/bridge-api.ts';
import { ReadInFile } from './read-in-file.tsx';
import './jobs.css';

const PLACES = ['no', 'yes', 'all'] as const;

export function JobsPanel({ session }: { readonly session: Session }) {
  const { recordings: words, jobs } = speech.value.wording;
  useEffect(keepLooking, []);
  const list = found.value;
  const { search, verdict } = wanted.value;
  const isNarrowed = search !== '' || verdict !== null;
  return (
    <Panel title={words.title} testId="recordings-panel">
      <JobFilters />
      {list !== null && (
        <p class="quiet" role="status" data-testid="jobs-found">
          {list.found > 0 && jobs.found({ count: list.found })}
          {list.found === 0 && (isNarrowed ? jobs.none : jobs.nothingYet)}
          {verdict !== null && list.notJudged > 0 && (
            <> {jobs.stillJudging({ count: list.notJudged })}</>
          )}
        </p>
      )}
      <p id={DONE_ID} tabIndex={-1} role="status" class="job-done">
        {done.value}
      </p>
      <ul class="job-list">
        {list?.jobs.map((card) => (
          <JobRow key={`${card.recordingId}-${card.beginMark}`} card={card} session={session} />
        ))}
      </ul>
      {list !== null && list.found > list.jobs.length && (
        <button type="button" onClick={() => void lookFurther()} data-testid="earlier-jobs">
          {jobs.further}
        </button>
      )}
      {may('owner') && (
        <>
          <ReadInFile explained session={session} />
          <div class="row">
            <a class="button" href={BACKUP_ADDRESS} download data-testid="back-up">
              {words.backUp}
            </a>
            <span class="quiet">{words.backUpHelp}</span>
          </div>
        </>
      )}
    </Panel>
  );
}

function JobFilters() {
  const { jobs, verdict: verdicts } = speech.value.wording;
  const { search, verdict, archived } = wanted.value;
  return (
    <form class="form" onSubmit={(event) => event.preventDefault()}>
      <label class="wide">
        {jobs.search}
        <input
          type="search"
          name="search"
          maxLength={200}
          value={search}
          onInput={(event) =>
            (wanted.value = { ...wanted.value, search: event.currentTarget.value })
          }
        />
      </label>
      <label>
        {jobs.verdict}
        <select
          name="verdict"
          value={verdict ?? ''}
          onChange={(event) => {
            const picked = [...VERDICTS, 'no_hold' as const].find(
              (one) => one === event.currentTarget.value,
            );
            wanted.value = { ...wanted.value, verdict: picked ?? null };
          }}
        >
          <option value="">{jobs.anyVerdict}</option>
          {VERDICTS.map((one) => (
            <option key={one} value={one}>
              {verdicts.names[one]}
            </option>
          ))}
          <option value="no_hold">{jobs.noHold}</option>
        </select>
      </label>
      <div class="two-thirds">
        <PickOne
          legend={jobs.where}
          name="archived"
          options={PLACES}
          chosen={archived}
          label={(place) => jobs.places[place]}
          pick={(place) => (wanted.value = { ...wanted.value, archived: place })}
        />
      </div>
    </form>
  );
}
