/** What the office has of the recordings that a batch is of, as the database says within its transaction. */
import { z } from 'zod';
import type { RecordingKey } from '../../../protocol/van-topics.ts';
import type { Asking } from './office-database.ts';

export interface KnownRecording {
  readonly id: number;
  /** All readings up to this number are there, or go in with this batch. */
  lastIndex: number;
  factsVersion: number;
  isDeleted: boolean;
  /** Stretches of data time that were deleted for good. */
  deleted: readonly { readonly fromS: number; readonly untilS: number | null }[];
}

export type OfVan = RecordingKey & { readonly van: string };

const recordingRow = z.object({
  id: z.coerce.number(),
  van: z.string(),
  number: z.int(),
  startedAtMs: z.coerce.number(),
  lastIndex: z.int(),
  factsVersion: z.int(),
  isDeleted: z.boolean(),
  deleted: z.array(z.object({ fromS: z.number(), untilS: z.number().nullable() })),
});

const SELECT = `
  SELECT recording.id, van, number, started_at_ms AS "startedAtMs", last_index AS "lastIndex",
    facts_version AS "factsVersion", deleted_at IS NOT NULL AS "isDeleted",
    (SELECT COALESCE(json_agg(json_build_object('fromS', from_s, 'untilS', until_s)), '[]')
     FROM deleted_stretch WHERE recording_id = recording.id) AS deleted
  FROM recording JOIN unnest($1::text[], $2::int[], $3::bigint[]) AS wanted (of_van, of_number, of_start)
    ON van = of_van AND number = of_number AND started_at_ms = of_start`;

const INSERT = `
  INSERT INTO recording (van, number, started_at_ms)
  SELECT * FROM unnest($1::text[], $2::int[], $3::bigint[])
  RETURNING id, van, number, started_at_ms AS "startedAtMs", last_index AS "lastIndex",
    facts_version AS "factsVersion", false AS "isDeleted", '[]'::json AS deleted`;

export function nameOf({ van, recordingId, startedAtMs }: OfVan): string {
  return `${van} ${recordingId} ${startedAtMs}`;
}

/** @returns by their names; those of which the office has nothing are not among them */
export async function findRecordings(
  client: Asking,
  wanted: readonly OfVan[],
): Promise<Map<string, KnownRecording>> {
  const once = new Map(wanted.map((key) => [nameOf(key), key]));
  return once.size === 0 ? new Map() : asked(client, SELECT, [...once.values()]);
}

/** New ones, of which the office has nothing yet; each once. */
export async function beginRecordings(
  client: Asking,
  missing: readonly OfVan[],
): Promise<Map<string, KnownRecording>> {
  return missing.length === 0 ? new Map() : asked(client, INSERT, missing);
}

async function asked(
  client: Asking,
  sql: string,
  keys: readonly OfVan[],
): Promise<Map<string, KnownRecording>> {
  const { rows } = await client.query(sql, [
    keys.map(({ van }) => van),
    keys.map(({ recordingId }) => recordingId),
    keys.map(({ startedAtMs }) => startedAtMs),
  ]);
  return new Map(
    z
      .array(recordingRow)
      .parse(rows)
      .map(({ van, number, startedAtMs, ...known }) => [
        nameOf({ van, recordingId: number, startedAtMs }),
        known,
      ]),
  );
}
