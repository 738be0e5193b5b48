/** Rows of comma-separated values as RFC 4180 has them, with text that no spreadsheet takes for a formula. */

/**
 * What a spreadsheet begins a formula with, as wide letters too, or skips before one; and the sign that keeps it
 * from it.
 */
const WOULD_BE_RUN = /^[=+\-@＝＋－＠\t\r\n\0']/u;
const NEEDS_QUOTES = /[",\r\n]/u;

/** What a person typed, or a sensor calls itself: anything. */
export function textCell(text: string): string {
  const harmless = WOULD_BE_RUN.test(text) ? `'${text}` : text;
  return NEEDS_QUOTES.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}

/** What `textCell` wrote, without its quotes. */
export function textOfCell(cell: string): string {
  return cell.startsWith("'") ? cell.slice(1) : cell;
}

export class CsvCellsError extends Error {
  override readonly name = 'CsvCellsError';
}

/** Rows of cells, with the line of the file in which each begins; empty lines are none. */
export function* csvRows(text: string): Generator<{ line: number; cells: string[] }> {
  let cells: string[] = [];
  let line = 1;
  let begunOn = 1;
  const part = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n|\n|\r|$)/uy;
  for (let at = text.startsWith('\uFEFF') ? 1 : 0; at < text.length || cells.length > 0;) {
    part.lastIndex = at;
    const found = part.exec(text);
    if (found === null) {
      throw new CsvCellsError(
        `line ${line}: a quotation mark stands alone; write each within quotation marks twice`,
      );
    }
    const [whole, quoted, plain = '', end] = found;
    cells.push(quoted === undefined ? plain : quoted.replaceAll('""', '"'));
    line += whole.match(/\r\n|\n|\r/gu)?.length ?? 0;
    at += whole.length;
    if (end === ',') continue;
    if (cells.length > 1 || cells[0] !== '') yield { line: begunOn, cells };
    cells = [];
    begunOn = line;
  }
}
