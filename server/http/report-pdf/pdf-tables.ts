/**
 * The tables of the PDF: no row is cut in two, and a head stands over each page's part of them. Each column
 * has a width of its own: left to itself, the library lets a long word run off the page.
 */
import type { Content, TableCell } from 'pdfmake';
import { PRINT } from '../../../web/figure/print-palette.ts';
import type { Fact, ListBlock, SignOffBlock } from '../../../web/report/report-document.ts';
import { COLUMN_GAP_PT, GRID, GRID_PT, ROWS, rowsUnder } from './pdf-look.ts';
import { plainText } from './plain-text.ts';
import { widthsOf } from './column-widths.ts';

/** Of a table of facts, what their names take. */
const NAME_SHARE = 0.36;
/** Room to write by hand. */
const SIGNATURE_PT = 36;

export function factsTable(facts: readonly Fact[], widthPt: number): Content {
  const body = facts.map(({ name, value }): TableCell[] => [named(name), plainText(value)]);
  const nameWidth = NAME_SHARE * widthPt;
  const widths = [nameWidth, widthPt - nameWidth - 2 * COLUMN_GAP_PT];
  return { layout: ROWS, table: { widths, dontBreakRows: true, body } };
}

/** @param headings stand over it on each page */
export function listTable(
  { columns, rows }: ListBlock,
  headings: readonly Content[],
  widthPt: number,
): Content {
  const span = columns.map((_, at): TableCell => {
    return at === 0 ? { stack: [...headings], colSpan: columns.length } : {};
  });
  const head = columns.map(named);
  const heads = headings.length === 0 ? [head] : [span, head];
  return {
    layout: rowsUnder(heads.length),
    table: {
      widths: widthsOf([columns, ...rows], widthPt),
      headerRows: heads.length,
      keepWithHeaderRows: 1,
      dontBreakRows: true,
      body: [...heads, ...rows.map((cells) => cells.map(plainText))],
    },
  };
}

export function signOffTable({ columns, rows }: SignOffBlock, widthPt: number): Content {
  const body = rows.map(({ signer, cells }): TableCell[] => {
    return [named(signer), ...cells.map(plainText)];
  });
  const count = columns.length + 1;
  const width = (widthPt - (count + 1) * GRID_PT.line) / count - 2 * GRID_PT.padding;
  return {
    layout: GRID,
    table: {
      widths: Array.from({ length: count }, () => width),
      heights: (row) => (row === 0 ? 'auto' : SIGNATURE_PT),
      dontBreakRows: true,
      body: [[named(''), ...columns.map(named)], ...body],
    },
  };
}

function named(text: string) {
  return { text: plainText(text), color: PRINT.faint };
}
