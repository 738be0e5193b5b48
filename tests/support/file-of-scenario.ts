/** The curve of a scenario as a file that can be read in: a whole job is there at once. */
import {
  type CsvRow,
  formatReadingsCsvRows,
  isCsvEvent,
  READINGS_CSV_HEADER,
} from '../../protocol/readings-csv.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import { played } from './played-scenario.ts';

function fileOf(scenario: string): string {
  const { rows, marks } = played(scenario);
  const events = marks.filter(({ kind }) => isCsvEvent(kind));
  const cells = rows.map((row): CsvRow => {
    const event = events[0] && events[0].elapsedS <= row.elapsedS ? events.shift() : undefined;
    return { ...row, event: event !== undefined && isCsvEvent(event.kind) ? event.kind : null };
  });
  return `${READINGS_CSV_HEADER}${formatReadingsCsvRows(cells)}`;
}

/** @returns the number of the recording that a bridge makes of it, with its site entered */
export async function readInScenario(
  bridgeUrl: string,
  scenario: string,
  site: string,
): Promise<number> {
  const answer = await fetch(new URL(`api/imports?name=${scenario}.csv`, bridgeUrl), {
    method: 'POST',
    headers: { 'content-type': 'text/csv' },
    body: fileOf(scenario),
  });
  const { id } = recordingSchema.parse(await answer.json());
  await fetch(new URL(`api/recordings/${id}/sheet`, bridgeUrl), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ elapsedS: 0, fields: { site, equipment: 'Cold room' } }),
  });
  return id;
}
