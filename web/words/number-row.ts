/** A number with its name, as a row of a table, and rows that belong together. */

export interface NumberRow {
  readonly name: string;
  readonly value: string;
}

export interface NumberGroup {
  readonly title: string;
  readonly rows: readonly NumberRow[];
  /** Conditions, and what is missing: sentences under the rows. */
  readonly notes: readonly string[];
}
