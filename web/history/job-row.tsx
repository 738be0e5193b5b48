/** One job of the list. */
import type { JobCard } from '../../protocol/job-card.ts';
import { archiveJob, reportAddress, reportPdfAddress } from '../connection/bridge-api.ts';
import { dayAndTime } from '../parts/clock-words.ts';
import { tell } from '../parts/notice.ts';
import { panel } from '../parts/panels.ts';
import { paper } from '../store/paper.ts';
import type { Session } from '../store/session.ts';
import { speech } from '../store/speech.ts';
import { may } from '../store/this-screen.ts';
import { sayJobNotes, sayJobOutcome, sayJobPlace } from '../words/say-job.ts';
import { CsvLinks } from './csv-links.tsx';
import { DeleteJob } from './delete-job.tsx';
import { lookAgain, sayDone } from './job-search.ts';
import { layBehind } from './laid-behind.ts';
import { openJob } from './open-job.ts';

interface JobRowProps {
  readonly card: JobCard;
  readonly session: Session;
}

export function JobRow({ card, session }: JobRowProps) {
  const { recordings: words, jobs } = speech.value.wording;
  const { recordingId, beginMark, startedAtMs, archived, running, outcomes } = card;
  const followed = session.followed.value;
  const isShown = followed?.id === recordingId && followed.job.value.beginMark === beginMark;
  const { day, time } = dayAndTime(startedAtMs, speech.value);
  const place = sayJobPlace(card, speech.value);
  const nameId = `job-name-${recordingId}-${beginMark}`;
  const open = () => {
    void openJob(session, card).then((opened) => {
      if (opened) panel.value = null;
    });
  };
  const lay = () => {
    const isRise = followed?.conclusions.peek()?.stage.name === 'rise';
    void layBehind(card, isRise ? 'valve_off' : 'pump_on').then((laid) => {
      if (laid) panel.value = null;
    });
  };
  const putAway = () => {
    void tell(archiveJob(card, !archived)).then((done) => {
      if (done !== null) sayDone(archived ? jobs.takenOut({ place }) : jobs.putAway({ place }));
      return lookAgain();
    });
  };
  return (
    <li data-testid={`job-${recordingId}-${beginMark}`}>
      <div class="job-said">
        <b id={nameId}>{place}</b>
        <span>{[`${day}, ${time}`, ...sayJobNotes(card, speech.value)].join(' · ')}</span>
        <span class="job-outcome" data-verdict={outcomes?.[0]?.verdict ?? 'none'}>
          {sayJobOutcome(card, speech.value)}
        </span>
      </div>
      <button
        type="button"
        aria-describedby={nameId}
        aria-current={isShown ? 'true' : undefined}
        onClick={open}
      >
        {words.open}
      </button>
      <a class="button" href={reportAddress(card, speech.value)} target="_blank" rel="noopener">
        {words.report}
      </a>
      <a class="button" href={reportPdfAddress(card, paper.value, speech.value)} download>
        {words.reportAsPdf}
      </a>
      <details>
        <summary class="button" aria-describedby={nameId}>
          {jobs.more}
        </summary>
        <div class="row">
          <button type="button" onClick={lay} disabled={followed === null || isShown}>
            {jobs.layBehind}
          </button>
          <CsvLinks card={card} />
          {!running && may('owner') && (
            <button type="button" onClick={putAway}>
              {archived ? jobs.takeOut : jobs.archive}
            </button>
          )}
          {!running && archived && may('owner') && <DeleteJob card={card} />}
        </div>
      </details>
    </li>
  );
}
