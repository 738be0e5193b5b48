/** What could not be taken, for whoever looks into it: the latest of it. */
import type { Asking } from './office-database.ts';

const MOST_KEPT = 1000;

export async function putRefused(client: Asking, topic: string, reason: string): Promise<void> {
  await client.query('INSERT INTO refused_message (topic, reason) VALUES ($1, $2)', [
    topic,
    reason,
  ]);
  await client.query(
    'DELETE FROM refused_message WHERE id <= (SELECT MAX(id) FROM refused_message) - $1',
    [MOST_KEPT],
  );
}
