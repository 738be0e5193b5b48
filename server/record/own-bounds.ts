/**
 * Whether what stands in a file's tables can have been entered at all. Everything on the way into a record is bounded
 * (protocol's schemas); a file from elsewhere may have a note of gigabytes, a number that is a text, marks without
 * end. Asked before anything else of it is read: the database knows how long a value is without fetching it.
 */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { MOST_IMPORT_BYTES } from '../../protocol/api.ts';
import { FACT_TABLES } from './fact-tables.ts';

/** A character is four bytes at most; how many characters there may be to the letter is asked as it is parsed. */
const characters = (count: number): number => 4 * count;
const WORD = characters(100);
/** What is kept as JSON came in a request's body, and has no spaces of its own. */
const ENTRY = 2 ** 20;
/** Numbers of a link's facts, neighbours as one; of the links that a deletion took facts from there may be many. */
const NUMBERS_OF_FACTS = 2 ** 20;
const NUMBERS_OF_LINKS = 2 ** 23;

/** The most bytes that a text may have, by table and column. */
export const LONGEST_TEXTS: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  recording: { origin: WORD, title: characters(200) },
  sensor: { identity: 2 ** 14 },
  reading: { condition: WORD },
  mark: { kind: WORD, text: characters(500), made_by: WORD },
  sheet_entry: { fields: ENTRY },
  rehearsal_call: { trainee: characters(60), cause: WORD },
  rehearsal_reveal: { scenario: WORD, truth: WORD },
  sensor_label: { sensor_id: WORD, name: characters(40), place: WORD },
  seen_alert: { alert: characters(120) },
  sign_off: {
    name: WORD,
    licence: WORD,
    remark: characters(1000),
    quoted: characters(1000),
    software_version: WORD,
  },
  sensor_calibration: { sensor_id: WORD, calibrated_on: WORD },
  taken_from: {
    format: WORD,
    origin: WORD,
    title: characters(200),
    hash: WORD,
    software_version: WORD,
  },
  tombstone: { links: NUMBERS_OF_LINKS },
  prepared_sheet: { fields: ENTRY },
  chain_link: { facts: NUMBERS_OF_FACTS },
};

const LINKS = 'chain_link';
const TABLES = [...Object.values(FACT_TABLES).map(({ table }) => table), LINKS];
/** What a row has besides its texts. */
const ROW_BYTES = 100;
/** Bounded by the file alone: a day of readings is millions. */
const MANY: readonly string[] = [FACT_TABLES.reading.table, LINKS];

const columnRow = z.object({ name: z.string(), type: z.string() });
type Column = z.infer<typeof columnRow>;
const outsideRow = z.object({
  name: z.string(),
  type: z.string(),
  bytes: z.int().nullable(),
  key: z.unknown(),
});
const weightRow = z.object({ recordingId: z.int(), bytes: z.number() });

/**
 * @param mostOfARecording bytes of all but its readings and links: as many as a file that is read in may bring
 * @returns what can't have been entered, in words; null: all can
 */
export function beyondBounds(
  database: Database.Database,
  mostOfARecording = MOST_IMPORT_BYTES,
): string | null {
  const weights = new Map<number, number>();
  for (const table of TABLES) {
    const longest = LONGEST_TEXTS[table] ?? {};
    const columns = z.array(columnRow).parse(database.pragma(`table_info(${table})`));
    // Of an older version.
    if (columns.length === 0) continue;
    const found = oneOutside(database, table, columns, longest);
    if (found !== null) return found;
    if (MANY.includes(table)) continue;
    for (const { recordingId, bytes } of weightsIn(database, table, columns, longest)) {
      const all = (weights.get(recordingId) ?? 0) + bytes;
      weights.set(recordingId, all);
      if (all <= mostOfARecording) continue;
      const most = `at most ${mostOfARecording} can be entered`;
      return `recording ${recordingId}: marks, entries and the like of ${all} bytes, and ${most}`;
    }
  }
  return null;
}

function oneOutside(
  database: Database.Database,
  table: string,
  columns: readonly Column[],
  longest: Readonly<Record<string, number>>,
): string | null {
  const faults = columns.map(({ name, type }) => ({
    name,
    sql: isOutside(name, type, longest[name] ?? 0),
  }));
  const which = (what: (name: string) => string): string =>
    `CASE ${faults.map(({ name, sql }) => `WHEN ${sql} THEN ${what(name)}`).join(' ')} END`;
  const [key] = columns;
  const row: unknown = database
    .prepare(
      `SELECT ${which((name) => `'${name}'`)} AS name, ${which((name) => `typeof(${name})`)} AS type,
         ${which((name) => `octet_length(${name})`)} AS bytes, ${key?.name ?? 'NULL'} AS key
       FROM ${table} WHERE ${faults.map(({ sql }) => sql).join(' OR ')} LIMIT 1`,
    )
    .get();
  if (row === undefined) return null;
  const { name, type, bytes, key: of } = outsideRow.parse(row);
  const where = `${table}.${name}, where ${key?.name ?? ''} is ${String(of).slice(0, 20)}`;
  const most = longest[name];
  if (table === LINKS && name === HASH) return `${where}: ${bytes ?? 0} bytes that are no hash`;
  if (type !== 'text' || most === undefined) return `${where}: a value of the type ${type}`;
  return `${where}: a text of ${bytes ?? 0} bytes, and at most ${most} can be entered`;
}

/** Nothing at all is another question: what must not be missing is looked at with the file's soundness. */
function isOutside(name: string, type: string, most: number): string {
  switch (type) {
    case 'TEXT':
      return `(typeof(${name}) NOT IN ('text', 'null') OR octet_length(${name}) > ${most})`;
    case 'BLOB':
      return `(typeof(${name}) <> 'blob' OR octet_length(${name}) <> ${HASH_BYTES})`;
    case 'INTEGER':
    case 'REAL':
    default:
      return `(typeof(${name}) NOT IN ('integer', 'real', 'null'))`;
  }
}

/** The only bytes that a record keeps. */
const HASH = 'hash';
const HASH_BYTES = 32;

function weightsIn(
  database: Database.Database,
  table: string,
  columns: readonly Column[],
  longest: Readonly<Record<string, number>>,
): z.infer<typeof weightRow>[] {
  const texts = Object.keys(longest).map((name) => `octet_length(${name})`);
  const isOfRecording = columns.some(({ name }) => name === 'recording_id');
  const owner = table === FACT_TABLES.begin.table ? 'id' : isOfRecording ? 'recording_id' : '0';
  return z.array(weightRow).parse(
    database
      .prepare(
        `SELECT ${owner} AS recordingId, SUM(${[ROW_BYTES, ...texts].join(' + ')}) AS bytes
           FROM ${table} GROUP BY 1`,
      )
      .all(),
  );
}
