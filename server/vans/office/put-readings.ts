/** Puts readings into the database, many at once, and up to which number a recording has them all. */
import type { Reading } from '../../../protocol/reading.ts';
import type { KnownRecording } from './known-recordings.ts';
import type { Asking } from './office-database.ts';

export interface NewReading extends Reading {
  readonly recordingId: number;
}

export async function putReadings(client: Asking, rows: readonly NewReading[]): Promise<void> {
  await client.query(
    `INSERT INTO reading SELECT * FROM unnest($1::bigint[], $2::int[], $3::smallint[], $4::int[],
       $5::bigint[], $6::float8[], $7::float8[], $8::float8[], $9::text[])`,
    [
      rows.map((row) => row.recordingId),
      rows.map((row) => row.index),
      rows.map((row) => row.channel),
      rows.map((row) => row.boot),
      rows.map((row) => row.sequence),
      rows.map((row) => row.elapsedS),
      rows.map((row) => row.pressurePa),
      rows.map((row) => row.temperatureC),
      rows.map((row) => row.condition),
    ],
  );
}

export async function raiseMarks(client: Asking, risen: readonly KnownRecording[]): Promise<void> {
  await client.query(
    `UPDATE recording SET last_index = mark FROM unnest($1::bigint[], $2::int[]) AS risen (of_id, mark)
     WHERE id = of_id`,
    [risen.map(({ id }) => id), risen.map(({ lastIndex }) => lastIndex)],
  );
}
