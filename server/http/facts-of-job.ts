/** What is taken away of one job of a recording, and of no other one: that may be another customer's. */
import { entriesOf, isWithin, type Job, jobOf, WHOLE_JOB } from '../../protocol/job.ts';
import { partOf } from '../../protocol/part-of-recording.ts';
import { ProblemError } from '../../protocol/problems.ts';
import type { RecordingJsonHead } from '../../protocol/recording-json.ts';
import type { RecordAccess } from './record-access.ts';

/**
 * @param beginMark undefined: the whole recording is wanted
 * @throws ProblemError `not_found`
 */
export function wantedJob(record: RecordAccess, id: number, beginMark: number | undefined): Job {
  if (beginMark === undefined) return WHOLE_JOB;
  const job = jobOf(record.marks(id), beginMark);
  if (job === null) throw new ProblemError('not_found', `job ${beginMark} of recording ${id}`);
  return job;
}

type Facts = Pick<
  RecordingJsonHead,
  'job' | 'marks' | 'marksTakenBack' | 'sheet' | 'takenBack' | 'seenAlerts' | 'signOffs'
>;

/** All but the readings. */
export function factsOfJob(record: RecordAccess, id: number, job: Job): Facts {
  const part = partOf(job);
  const during = ({ elapsedS }: { readonly elapsedS: number }) => isWithin(job, elapsedS);
  const all = {
    marks: record.marks(id),
    marksTakenBack: record.facts.marksTakenBack(id),
    sheet: record.sheet(id),
    takenBack: record.takenBack(id),
    seenAlerts: record.seenAlerts(id),
    signOffs: record.signOffs(id),
  };
  if (part === null) return { job: part, ...all };
  return {
    job: part,
    marks: all.marks.filter(during),
    marksTakenBack: all.marksTakenBack.filter(during),
    sheet: entriesOf(job, all.sheet),
    takenBack: all.takenBack.filter(during),
    seenAlerts: all.seenAlerts.filter(({ untilS }) => isWithin(job, untilS)),
    signOffs: all.signOffs.filter((one) => one.beginMark === job.beginMark),
  };
}
