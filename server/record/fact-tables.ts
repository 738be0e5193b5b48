/**
 * Which tables hold the facts of a recording, and in which order of columns a fact counts: what the chain is
 * reckoned from. A column that is added later is not among them; its values are facts of a new table or kind.
 */
import { type FactSpan, PACKED_READINGS } from './chain.ts';

export interface FactTable {
  /** One letter, as it stands in a link. */
  readonly letter: string;
  readonly table: string;
  readonly columns: readonly string[];
  /** By which column its facts are told apart within a recording; null: there is one at most. */
  readonly key: string | null;
}

/** Recording 0 stands for what belongs to no recording. */
export const OF_NO_RECORDING = 0;

export const FACT_TABLES = {
  begin: {
    letter: 'b',
    table: 'recording',
    columns: ['id', 'origin', 'started_at_ms', 'title'],
    key: null,
  },
  end: {
    letter: 'e',
    table: 'recording_end',
    columns: ['recording_id', 'ended_at_ms'],
    key: null,
  },
  sensor: {
    letter: 's',
    table: 'sensor',
    columns: ['id', 'recording_id', 'channel', 'identity'],
    key: 'id',
  },
  reading: {
    letter: 'r',
    table: 'reading',
    columns: [
      'recording_id',
      'reading_index',
      'channel',
      'boot',
      'sequence',
      'uptime_ms',
      'arrived_s',
      'elapsed_s',
      'pressure_pa',
      'temperature_c',
      'condition',
    ],
    key: 'reading_index',
  },
  mark: {
    letter: 'm',
    table: 'mark',
    columns: ['id', 'recording_id', 'kind', 'elapsed_s', 'text', 'made_by'],
    key: 'id',
  },
  sheet: {
    letter: 'j',
    table: 'sheet_entry',
    columns: ['id', 'recording_id', 'elapsed_s', 'fields'],
    key: 'id',
  },
  call: {
    letter: 'c',
    table: 'rehearsal_call',
    columns: ['recording_id', 'trainee', 'cause', 'sure_percent', 'elapsed_s'],
    key: null,
  },
  reveal: {
    letter: 'v',
    table: 'rehearsal_reveal',
    columns: ['recording_id', 'scenario', 'seed', 'truth', 'told_s', 'revealed_at_ms'],
    key: null,
  },
  label: {
    letter: 'l',
    table: 'sensor_label',
    columns: ['id', 'sensor_id', 'name', 'place', 'display_step_pa', 'given_at_ms'],
    key: 'id',
  },
  take_back: {
    letter: 't',
    table: 'reading_taken_back',
    columns: ['recording_id', 'reading_index', 'instead_pa', 'at_ms'],
    key: 'reading_index',
  },
  seen_alert: {
    letter: 'a',
    table: 'seen_alert',
    columns: ['id', 'recording_id', 'alert', 'until_s', 'at_ms'],
    key: 'id',
  },
  mark_taken_back: {
    letter: 'u',
    table: 'mark_taken_back',
    columns: ['recording_id', 'mark_id', 'at_ms'],
    key: 'mark_id',
  },
  archived: {
    letter: 'h',
    table: 'job_archived',
    columns: ['id', 'recording_id', 'begin_mark', 'archived', 'at_ms'],
    key: 'id',
  },
  sign_off: {
    letter: 'o',
    table: 'sign_off',
    columns: [
      'id',
      'recording_id',
      'begin_mark',
      'from_s',
      'last_s',
      'name',
      'licence',
      'remark',
      'quoted',
      'software_version',
      'at_ms',
    ],
    key: 'id',
  },
  calibration: {
    letter: 'k',
    table: 'sensor_calibration',
    columns: ['id', 'sensor_id', 'calibrated_on', 'given_at_ms'],
    key: 'id',
  },
  taken_from: {
    letter: 'f',
    table: 'taken_from',
    columns: [
      'recording_id',
      'format',
      'origin',
      'recording_id_there',
      'started_at_ms',
      'title',
      'hash',
      'held',
      'software_version',
      'at_ms',
    ],
    key: null,
  },
  prepared: {
    letter: 'w',
    table: 'prepared_sheet',
    columns: ['id', 'prepared', 'used_in', 'used_s', 'at_ms', 'fields'],
    key: 'id',
  },
  tombstone: {
    letter: 'x',
    table: 'tombstone',
    columns: ['id', 'recording_id', 'begin_mark', 'from_s', 'until_s', 'links', 'facts', 'at_ms'],
    key: 'id',
  },
} as const satisfies Readonly<Record<string, FactTable>>;

export type FactTableName = keyof typeof FACT_TABLES;

export const FACT_KINDS: readonly FactTableName[] = Object.keys(FACT_TABLES).filter(
  (kind): kind is FactTableName => kind in FACT_TABLES,
);

/** Of sensors, and of sheets that nobody has taken over. */
const OF_NONE: readonly string[] = [
  FACT_TABLES.label.table,
  FACT_TABLES.calibration.table,
  FACT_TABLES.prepared.table,
];

/** Which rows of a table belong to a recording, with its number in the place of the one '?'. */
export function whereOf({ table }: FactTable): string {
  if (table === FACT_TABLES.begin.table) return 'id = ?';
  return OF_NONE.includes(table) ? `? = ${OF_NO_RECORDING}` : 'recording_id = ?';
}

/** Of a link's spans: readings as bytes, or as the lines of older links. */
export function isOfReadings({ letter }: FactSpan): boolean {
  return letter === PACKED_READINGS || letter === FACT_TABLES.reading.letter;
}

/** @returns null for a letter that stands for no fact */
export function kindOfLetter(letter: string): FactTableName | null {
  return FACT_KINDS.find((kind) => FACT_TABLES[kind].letter === letter) ?? null;
}
