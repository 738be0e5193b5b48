/** How a file is to be read: guessed at first, then as a person chooses. */
import type { PressureUnit, TemperatureUnit } from '../../protocol/units.ts';
import type { Decimal, TimeKind } from './read-cell.ts';
import type { Separator } from './split-file.ts';

/** What a column can be. */
export const COLUMN_ROLES = ['time', 'pressure', 'temperature', 'event'] as const;
export type ColumnRole = (typeof COLUMN_ROLES)[number];

export interface Choice {
  readonly separator: Separator;
  readonly decimal: Decimal;
  /** Which column is which: a position, or null where the file has none. */
  readonly columns: Readonly<Record<ColumnRole, number | null>>;
  /** Null where nothing says it: somebody has to. */
  readonly timeAs: TimeKind | null;
  readonly pressureIn: PressureUnit | null;
  readonly temperatureIn: TemperatureUnit;
}

export interface Guess extends Choice {
  /** What stands over the columns; empty where nothing does. */
  readonly headings: readonly string[];
  /** How many columns the table has. */
  readonly width: number;
  /** The line of the file in which the readings begin. */
  readonly firstLine: number;
}

/** A choice that can be read by. */
export interface WholeChoice extends Choice {
  readonly columns: Choice['columns'] & { readonly time: number; readonly pressure: number };
  readonly timeAs: TimeKind;
  readonly pressureIn: PressureUnit;
}

export function isWhole(choice: Choice): choice is WholeChoice {
  const { columns, timeAs, pressureIn } = choice;
  const isSaid = timeAs !== null && pressureIn !== null;
  return isSaid && columns.time !== null && columns.pressure !== null;
}
