/** The readings of a job's recording as files: each holds one curve, so of several sensors each has its own. */
import type { JobCard } from '../../protocol/job-card.ts';
import { csvAddress } from '../connection/bridge-api.ts';

export function CsvLinks({ card }: { readonly card: JobCard }) {
  const { recordingId: id, sensors } = card;
  const names = sensors.length < 2 ? [''] : sensors;
  return (
    <>
      {names.map((name, channel) => (
        <a
          key={channel}
          class="button"
          href={csvAddress({ id, sensors }, channel)}
          title={name}
          download
        >
          {names.length < 2 ? 'CSV' : `CSV ${channel + 1}`}
        </a>
      ))}
    </>
  );
}
