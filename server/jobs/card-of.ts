/** The card of a job from its facts: pure. */
import { type Job, sheetOfJob } from '../../protocol/job.ts';
import type { JobCard, JobOutcome } from '../../protocol/job-card.ts';
import { isSimulated, knowsWallTime, type Recording } from '../../protocol/recording.ts';
import type { SheetEntry } from '../../protocol/sheet.ts';
import type { SignOff } from '../../protocol/sign-off.ts';

export interface JobFacts {
  readonly recording: Recording;
  readonly job: Job;
  readonly entries: readonly SheetEntry[];
  readonly signOffs: readonly SignOff[];
  readonly archived: boolean;
  /** Data time of the recording's last reading, s; null where it has none. */
  readonly lastS: number | null;
}

export function cardOf(facts: JobFacts, outcomes: readonly JobOutcome[] | null): JobCard {
  const { recording, job, entries, signOffs, archived, lastS } = facts;
  const { site, equipment } = sheetOfJob(job, entries);
  const hasReadings = lastS !== null && lastS >= job.fromS;
  return {
    recordingId: recording.id,
    beginMark: job.beginMark,
    origin: recording.origin,
    simulated: isSimulated(recording),
    startedAtMs:
      recording.startedAtMs + (knowsWallTime(recording.origin) ? Math.round(job.fromS * 1000) : 0),
    fromS: job.fromS,
    lastS: hasReadings ? Math.min(lastS, job.untilS ?? lastS) : null,
    running: isRunning(facts),
    title: recording.title,
    site,
    equipment,
    sensors: recording.sensors.map(({ name, label }) => (label?.name ?? '') || name),
    archived,
    signedBy: signOffs.findLast(({ beginMark }) => beginMark === job.beginMark)?.name ?? null,
    outcomes: outcomes === null ? null : [...outcomes],
  };
}

/** What begins later has ended it, even while the recording goes on. */
export function isRunning({ recording, job }: Pick<JobFacts, 'recording' | 'job'>): boolean {
  return recording.open && job.untilS === null;
}
