/** Shows a job of the list with its whole curve, as if it were live. */
import type { JobCard } from '../../protocol/job-card.ts';
import { recordingDetail } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { laidBehind } from './laid-behind.ts';
import type { Session } from '../store/session.ts';

/** @returns whether it is shown; what went wrong is told */
export async function openJob(session: Session, card: JobCard): Promise<boolean> {
  const { recordingId, beginMark, running } = card;
  if (session.recordings.peek().every(({ id }) => id !== recordingId)) {
    const detail = await tell(recordingDetail(recordingId));
    if (detail === null) return false;
    session.learn(detail.recording);
  }
  // It was laid behind another one.
  laidBehind.value = null;
  session.open(recordingId, !running, running ? null : beginMark);
  return true;
}
