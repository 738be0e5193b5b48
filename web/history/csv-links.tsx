/**
 * A job as files. Plain CSV holds one curve, so of several sensors each has its own; full CSV and JSON
 * hold all of it.
 */
import type { JobCard } from '../../protocol/job-card.ts';
import { csvAddress, fullCsvAddress, jsonAddress } from '../connection/bridge-api.ts';
import { speech } from '../store/speech.ts';

export function CsvLinks({ card }: { readonly card: JobCard }) {
  const { sensors } = card;
  const words = speech.value.wording.recordings;
  const names = sensors.length < 2 ? [''] : sensors;
  return (
    <>
      {names.map((name, channel) => (
        <a key={channel} class="button" href={csvAddress(card, channel)} title={name} download>
          {names.length < 2 ? words.csv : words.csvOf({ number: String(channel + 1) })}
        </a>
      ))}
      <a class="button" href={fullCsvAddress(card)} title={words.fullCsvHelp} download>
        {words.fullCsv}
      </a>
      <a class="button" href={jsonAddress(card)} title={words.jsonHelp} download>
        {words.json}
      </a>
    </>
  );
}
