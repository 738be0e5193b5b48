/**
 * Which table a row is of, by what it looks like: where the list of tables is gone, nothing else says so. Columns
 * and types are those of the new record, and what a text may be is what the program takes for a fact.
 */
import type Database from 'better-sqlite3';
import { z } from 'zod';
import { MARK_AUTHORS, MARK_KINDS } from '../../../protocol/mark.ts';
import { CONDITIONS } from '../../../protocol/reading.ts';
import { ORIGINS, sensorIdentitySchema } from '../../../protocol/recording.ts';
import { sheetSchema } from '../../../protocol/sheet.ts';
import { readSpans } from '../chain.ts';
import type { PageRow, Value } from './page-rows.ts';

const columnRow = z.object({
  name: z.string(),
  type: z.enum(['INTEGER', 'REAL', 'TEXT', 'BLOB']),
  notnull: z.int(),
  pk: z.int(),
});
type Column = z.infer<typeof columnRow>;

export interface TableShape {
  readonly table: string;
  readonly columns: readonly Column[];
  readonly hasRowid: boolean;
}

const tableRow = z.object({ name: z.string(), wr: z.int() });

export function shapesOf(database: Database.Database): TableShape[] {
  const tables = z.array(tableRow).parse(database.pragma('main.table_list'));
  return tables
    .filter(({ name }) => !name.startsWith('sqlite_'))
    .map(({ name, wr }) => ({
      table: name,
      columns: z.array(columnRow).parse(database.pragma(`main.table_info(${name})`)),
      hasRowid: wr === 0,
    }));
}

/** @returns the table's values in the order of its columns; null where the row is of another table */
export function asRowOf(shape: TableShape, { rowid, values }: PageRow): Value[] | null {
  if (shape.hasRowid !== (rowid !== null) || values.length !== shape.columns.length) return null;
  const row = values.map((value, place) => {
    const column = shape.columns[place];
    const isRowid = shape.hasRowid && column?.pk === 1 && column.type === 'INTEGER';
    // The number of a row stands before the row and not in it.
    return isRowid && value === null ? rowid : value;
  });
  return row.every((value, place) => fits(shape, place, value)) ? row : null;
}

function fits({ table, columns }: TableShape, place: number, value: Value): boolean {
  const column = columns[place];
  if (column === undefined) return false;
  if (value === null) return column.notnull === 0 && column.pk === 0;
  switch (column.type) {
    case 'INTEGER':
      return Number.isSafeInteger(value);
    case 'REAL':
      return typeof value === 'number' && Number.isFinite(value);
    case 'BLOB':
      return value instanceof Uint8Array;
    case 'TEXT':
      return typeof value === 'string' && (TEXTS[`${table}.${column.name}`]?.(value) ?? true);
  }
}

const oneOf = (values: readonly string[]) => (text: string) => values.includes(text);
const jsonOf = (schema: z.ZodType) => (text: string) => {
  try {
    return schema.safeParse(JSON.parse(text)).success;
  } catch {
    return false;
  }
};

/** Tells apart what has the same columns otherwise. */
const TEXTS: Readonly<Partial<Record<string, (text: string) => boolean>>> = {
  'recording.origin': oneOf(ORIGINS),
  'sensor.identity': jsonOf(sensorIdentitySchema),
  'sheet_entry.fields': jsonOf(sheetSchema.partial()),
  'prepared_sheet.fields': jsonOf(sheetSchema.partial()),
  'mark.kind': oneOf(MARK_KINDS),
  'mark.made_by': oneOf(MARK_AUTHORS),
  'reading.condition': oneOf(CONDITIONS),
  'chain_link.facts': (text) => readSpans(text) !== null,
};
