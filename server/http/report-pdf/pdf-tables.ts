/** The tables of the PDF: no row is cut in two, and a head stands over each page's part of them. */
import type { Content, ContentTable, Size, TableCell } from 'pdfmake/interfaces';
import { PRINT } from '../../../web/figure/print-palette.ts';
import type { Fact, ListBlock, SignOffBlock } from '../../../web/report/report-document.ts';
import { GRID, ROWS, rowsUnder } from './pdf-look.ts';
import { plainText } from './plain-text.ts';

/** Cells up to so many signs keep their width; the others share what is left. */
const NARROW = 20;
/** Room to write by hand. */
const SIGNATURE_PT = 36;

export function factsTable(facts: readonly Fact[]): ContentTable {
  const body = facts.map(({ name, value }): TableCell[] => [
    { text: plainText(name), color: PRINT.faint },
    { text: plainText(value) },
  ]);
  return { layout: ROWS, table: { widths: ['36%', '*'], dontBreakRows: true, body } };
}

/** @param headings stand over it on each page */
export function listTable(
  { columns, rows }: ListBlock,
  headings: readonly Content[],
): ContentTable {
  const span = columns.map((_, at): TableCell => {
    return at === 0 ? { stack: [...headings], colSpan: columns.length } : {};
  });
  const narrow = narrowColumns(columns, rows);
  const cellIn = (text: string, at: number) => {
    return { text: plainText(text), noWrap: narrow[at] === true };
  };
  const head = columns.map((column, at): TableCell => {
    return { ...cellIn(column, at), color: PRINT.faint };
  });
  const heads = headings.length === 0 ? [head] : [span, head];
  return {
    layout: rowsUnder(heads.length),
    table: {
      widths: widthsOf(narrow),
      headerRows: heads.length,
      keepWithHeaderRows: 1,
      dontBreakRows: true,
      body: [...heads, ...rows.map((cells) => cells.map(cellIn))],
    },
  };
}

export function signOffTable({ columns, rows }: SignOffBlock): ContentTable {
  const named = (text: string): TableCell => ({ text: plainText(text), color: PRINT.faint });
  const body = rows.map(({ signer, cells }): TableCell[] => [
    named(signer),
    ...cells.map((cell): TableCell => ({ text: plainText(cell) })),
  ]);
  return {
    layout: GRID,
    table: {
      widths: ['20%', ...columns.map((): Size => '*')],
      heights: (row) => (row === 0 ? 'auto' : SIGNATURE_PT),
      body: [[named(''), ...columns.map(named)], ...body],
    },
  };
}

function narrowColumns(columns: readonly string[], rows: ListBlock['rows']): boolean[] {
  return columns.map((column, at) => {
    const longest = Math.max(column.length, ...rows.map((cells) => cells[at]?.length ?? 0));
    return longest <= NARROW;
  });
}

/** Where none has to share what is left, the last one has it. */
function widthsOf(narrow: readonly boolean[]): Size[] {
  const last = narrow.length - 1;
  return narrow.map((is, at) => (is && (at < last || narrow.includes(false)) ? 'auto' : '*'));
}
