/** What a new prepared sheet begins with: what an earlier job had. */
import { entriesOf, carriedFrom, jobOf } from '../../protocol/job.ts';
import type { JobCard } from '../../protocol/job-card.ts';
import type { SheetEntry } from '../../protocol/sheet.ts';
import { listJobs, recordingDetail } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';

/** As many as somebody would look through. */
const MOST_OFFERED = 20;

export const EQUIPMENT = ['other', 'same'] as const;
export type Equipment = (typeof EQUIPMENT)[number];

/** Real jobs, the latest first: a rehearsal's gear is nobody's. */
export async function jobsToStartFrom(): Promise<readonly JobCard[]> {
  const answer = await listJobs({ limit: 2 * MOST_OFFERED });
  if (!answer.ok) return [];
  return answer.value.jobs.filter(({ simulated }) => !simulated).slice(0, MOST_OFFERED);
}

export async function fieldsFrom(
  { recordingId, beginMark }: JobCard,
  equipment: Equipment,
): Promise<SheetEntry['fields']> {
  // That nothing is filled in because nothing was answered is told.
  const detail = await tell(recordingDetail(recordingId));
  if (detail === null) return {};
  const job = jobOf(detail.marks, beginMark);
  return job === null ? {} : carriedFrom(entriesOf(job, detail.sheet), equipment);
}
