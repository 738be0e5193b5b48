/** How wide the columns of a list are: what is short keeps to one line, the rest shares what is left. */
import { COLUMN_GAP_PT, LETTERS } from './pdf-look.ts';

/** A column of no longer cells than so many signs is short. */
const SHORT = 20;
/** Of a letter, in terms of its size; digits are wider than most. Where it is too little, a cell wraps. */
const LETTER_WIDTH = 0.58;
/** Narrower than this nothing can be read. */
const NARROWEST_PT = 60;

/** @param rows with their headings */
export function widthsOf(rows: readonly (readonly string[])[], widthPt: number): number[] {
  const columns = rows[0]?.length ?? 0;
  const longest = Array.from({ length: columns }, (_, column) =>
    Math.max(...rows.map((cells) => cells[column]?.length ?? 0)),
  );
  const room = widthPt - columns * COLUMN_GAP_PT;
  // Where all are short, the last one takes what is left.
  const allShort = longest.every((length) => length <= SHORT);
  const own = longest.map((length, column) => {
    const keeps = length <= SHORT && !(allShort && column === columns - 1);
    return keeps ? length * LETTER_WIDTH * LETTERS.text : null;
  });
  const left = room - own.reduce<number>((sum, width) => sum + (width ?? 0), 0);
  const share = left / own.filter((width) => width === null).length;
  return own.map((width) => (share < NARROWEST_PT ? room / columns : (width ?? share)));
}
