/** The office's database: opened for one collector at a time, and brought up to date. */
import { readdirSync, readFileSync } from 'node:fs';
import pg from 'pg';
import { z } from 'zod';

const SCHEMA_FOLDER = new URL('schema/', import.meta.url);
/** Any number, as long as it is always the same: two collectors on one database would be in each other's way. */
const COLLECTOR_LOCK = 471_180_127;

/** What is wrong with the database, in one sentence that says what to do. */
export class DatabaseError extends Error {
  override readonly name = 'DatabaseError';
}

/** What can be asked within one connection. */
export type Asking = Pick<pg.ClientBase, 'query'>;

/**
 * @param url undefined: as the environment says (PGHOST, PGDATABASE, PGUSER, PGPASSWORD or a .pgpass file)
 * @param lost is called once where the connection ends by itself
 * @throws DatabaseError
 */
export async function openDatabase(url: string | undefined, lost: () => void): Promise<pg.Client> {
  const client = new pg.Client({
    ...(url === undefined ? {} : { connectionString: url }),
    application_name: 'ebbline collector',
    connectionTimeoutMillis: 10_000,
  });
  client.on('error', lost);
  try {
    await client.connect();
    await lock(client);
    await bringUpToDate(client);
    return client;
  } catch (error) {
    await client.end().catch(() => undefined);
    if (error instanceof DatabaseError) throw error;
    throw new DatabaseError(`the database can't be used: ${String(error)}; see --database`, {
      cause: error,
    });
  }
}

async function lock(client: pg.Client): Promise<void> {
  const { rows } = await client.query('SELECT pg_try_advisory_lock($1) AS ours', [COLLECTOR_LOCK]);
  if (z.array(z.object({ ours: z.boolean() })).parse(rows)[0]?.ours === true) return;
  throw new DatabaseError('another collector already fills this database: one is enough');
}

/** Each file once, in the order of their names; a released one is never edited. */
async function bringUpToDate(client: pg.Client): Promise<void> {
  await client.query(
    'CREATE TABLE IF NOT EXISTS migration (name text PRIMARY KEY, at timestamptz NOT NULL DEFAULT now())',
  );
  const { rows } = await client.query('SELECT name FROM migration');
  const done = z
    .array(z.object({ name: z.string() }))
    .parse(rows)
    .map(({ name }) => name);
  const all = readdirSync(SCHEMA_FOLDER)
    .filter((name) => name.endsWith('.sql'))
    .sort();
  const unknown = done.find((name) => !all.includes(name));
  if (unknown !== undefined) {
    throw new DatabaseError(
      `the database was used by a newer version of this program (${unknown}): start that one`,
    );
  }
  for (const name of all.filter((one) => !done.includes(one))) {
    await inTransaction(client, async () => {
      await client.query(readFileSync(new URL(name, SCHEMA_FOLDER), 'utf8'));
      await client.query('INSERT INTO migration (name) VALUES ($1)', [name]);
    });
  }
}

export async function inTransaction(client: Asking, work: () => Promise<void>): Promise<void> {
  await client.query('BEGIN');
  try {
    await work();
    await client.query('COMMIT');
  } catch (error) {
    // Where the connection is lost, so is the transaction.
    await client.query('ROLLBACK').catch(() => undefined);
    throw error;
  }
}
