/** Of what a van says again and again the database has the latest alone: what follows from a recording, and whether it is there. */
import type { VanOutlook, VanState } from '../../../protocol/van-messages.ts';
import type { Asking } from './office-database.ts';

export async function putOutlook(client: Asking, id: number, outlook: VanOutlook): Promise<void> {
  await client.query(
    `INSERT INTO outlook VALUES ($1, to_timestamp($2 / 1000.0), $3)
     ON CONFLICT (recording_id) DO UPDATE SET drawn_at = excluded.drawn_at, outlook = excluded.outlook`,
    [id, outlook.drawnAtMs, JSON.stringify(outlook)],
  );
}

export async function putState(
  client: Asking,
  van: string,
  { online, softwareVersion }: VanState,
): Promise<void> {
  await client.query(
    `INSERT INTO van VALUES ($1, $2, $3, now()) ON CONFLICT (van) DO UPDATE
     SET online = excluded.online, software_version = excluded.software_version, heard_at = now()`,
    [van, online, softwareVersion],
  );
}
