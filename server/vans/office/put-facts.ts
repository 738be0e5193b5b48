/** Puts what was said of a recording into the database, in the place of what was said before. */
import { jobsIn } from '../../../protocol/job.ts';
import type { VanFacts } from '../../../protocol/van-messages.ts';
import type { Asking } from './office-database.ts';

/** All that a recording has in tables of their own, but for its readings. */
const OF_FACTS = ['mark', 'job', 'sheet_entry', 'reading_taken_back', 'deleted_stretch'];

export async function putFacts(
  client: Asking,
  id: number,
  { version, recording, simulated, marks, sheet, signOffs, takenBack, deleted }: VanFacts,
): Promise<void> {
  await empty(client, id, OF_FACTS);
  await client.query(
    `UPDATE recording SET facts_version = $2, origin = $3, title = $4, running = $5, sensors = $6,
       taken_from = $7, simulated = $8, sign_offs = $9 WHERE id = $1`,
    [
      id,
      version,
      recording.origin,
      recording.title,
      recording.open,
      JSON.stringify(recording.sensors),
      recording.takenFrom === null ? null : JSON.stringify(recording.takenFrom),
      simulated,
      JSON.stringify(signOffs),
    ],
  );
  await client.query(
    `INSERT INTO mark SELECT $1, * FROM unnest($2::int[], $3::text[], $4::float8[], $5::text[], $6::text[])`,
    [
      id,
      marks.map((mark) => mark.id),
      marks.map((mark) => mark.kind),
      marks.map((mark) => mark.elapsedS),
      marks.map((mark) => mark.text),
      marks.map((mark) => mark.madeBy),
    ],
  );
  const jobs = jobsIn(marks);
  await client.query(
    'INSERT INTO job SELECT $1, * FROM unnest($2::int[], $3::float8[], $4::float8[])',
    [
      id,
      jobs.map((job) => job.beginMark),
      jobs.map((job) => job.fromS),
      jobs.map((job) => job.untilS),
    ],
  );
  await client.query(
    'INSERT INTO sheet_entry SELECT $1, * FROM unnest($2::int[], $3::float8[], $4::jsonb[])',
    [
      id,
      sheet.map((_, at) => at),
      sheet.map((entry) => entry.elapsedS),
      sheet.map((entry) => JSON.stringify(entry.fields)),
    ],
  );
  await client.query('INSERT INTO reading_taken_back SELECT $1, unnest($2::int[])', [
    id,
    takenBack,
  ]);
  await client.query(
    'INSERT INTO deleted_stretch SELECT $1, * FROM unnest($2::float8[], $3::float8[])',
    [id, deleted.map((stretch) => stretch.fromS), deleted.map((stretch) => stretch.untilS)],
  );
  if (deleted.length > 0) await deleteStretches(client, id);
}

/** The van deleted it for good. That it was there stays, so that nothing of it comes back. */
export async function deleteRecording(client: Asking, id: number): Promise<void> {
  await empty(client, id, [...OF_FACTS, 'reading', 'outlook']);
  await client.query(
    `UPDATE recording SET deleted_at = now(), title = NULL, sensors = NULL, taken_from = NULL,
       sign_offs = '[]' WHERE id = $1`,
    [id],
  );
}

async function deleteStretches(client: Asking, id: number): Promise<void> {
  await client.query(
    `DELETE FROM reading USING deleted_stretch AS gone
     WHERE reading.recording_id = $1 AND gone.recording_id = $1
       AND elapsed_s >= from_s AND (until_s IS NULL OR elapsed_s < until_s)`,
    [id],
  );
}

async function empty(client: Asking, id: number, tables: readonly string[]): Promise<void> {
  for (const table of tables)
    await client.query(`DELETE FROM ${table} WHERE recording_id = $1`, [id]);
}
