/** What the PDF of a report is called where it is kept: sorts by day, and says what it is. */
import { FIRST_JOB, type Job } from '../../../protocol/job.ts';
import { isSimulated, knowsWallTime } from '../../../protocol/recording.ts';
import type { Recording } from '../../../protocol/recording.ts';
import { sayRehearsalJob } from '../../../web/words/say-rehearsal.ts';
import { sayWallTime } from '../../../web/words/say-wall-time.ts';
import type { Speech } from '../../../web/words/speech.ts';

/** Longer names are refused by some places where files are kept. */
const LONGEST_PART = 60;

interface Named {
  readonly recording: Recording;
  readonly job: Job;
  readonly site: string;
  readonly offsetMinutes: number;
  readonly speech: Speech;
}

/** '2026-03-04-harbour-street-report-7.pdf' */
export function reportFileName({ recording, job, site, offsetMinutes, speech }: Named): string {
  const { report: words } = speech.wording;
  const number =
    job.beginMark === FIRST_JOB ? String(recording.id) : `${recording.id}-${job.beginMark}`;
  const laterS = knowsWallTime(recording.origin) ? job.fromS : 0;
  const beganMs = recording.startedAtMs + laterS * 1000;
  const day = sayWallTime(beganMs, offsetMinutes, speech).slice(0, 10);
  const title =
    recording.origin === 'rehearsal' ? sayRehearsalJob(recording.title, speech) : recording.title;
  const kind = isSimulated(recording) ? words.rehearsalFile({ number }) : words.file({ number });
  const parts = [day, site.trim() === '' ? title : site, kind].map(filePart);
  return `${parts.filter((part) => part !== '').join('-')}.pdf`;
}

/** Letters and digits of any language; all else may mean something to a file system. */
function filePart(text: string): string {
  const words = text.toLowerCase().match(/[\p{L}\p{M}\p{N}]+/gu) ?? [];
  return Array.from(words.join('-')).slice(0, LONGEST_PART).join('').replace(/-$/u, '');
}
