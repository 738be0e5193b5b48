/** Sizes of the PDF's pages and letters, pt, and the lines of its tables. */
import type { CustomTableLayout } from 'pdfmake/interfaces';
import type { Paper } from '../../../protocol/api.ts';
import { PRINT } from '../../../web/figure/print-palette.ts';

/** Width and height: ISO 216, and ANSI/ASME Y14.1. */
export const PAPER_SIZES: Readonly<Record<Paper, readonly [number, number]>> = {
  A4: [595.28, 841.89],
  Letter: [612, 792],
};

/** Of the page, from its edges to the text. */
export const MARGIN = { side: 48, top: 58, bottom: 56 } as const;

export const LETTERS = {
  title: 19,
  verdict: 17,
  section: 12.5,
  part: 10,
  text: 9.5,
  quiet: 8.3,
  edge: 7.8,
  hash: 9.5,
} as const;

const rule = (): string => PRINT.rule;

/** A line under each row; the text begins at the page's margin. */
export const ROWS: CustomTableLayout = {
  hLineWidth: (line) => (line === 0 ? 0 : 0.6),
  vLineWidth: () => 0,
  hLineColor: rule,
  paddingLeft: () => 0,
  paddingRight: () => 8,
  paddingTop: () => 2.2,
  paddingBottom: () => 2.6,
};

/** The same, with a strong line under its head: the row before the first of the body. */
export function rowsUnder(headRows: number): CustomTableLayout {
  return {
    ...ROWS,
    hLineWidth: (line) => (line === headRows ? 1 : line < headRows ? 0 : 0.6),
    hLineColor: (line) => (line === headRows ? PRINT.ink : PRINT.rule),
  };
}

/** A frame of ink around rows to be filled in. */
export const GRID: CustomTableLayout = {
  hLineWidth: () => 0.6,
  vLineWidth: () => 0.6,
  hLineColor: () => PRINT.faint,
  vLineColor: () => PRINT.faint,
  paddingLeft: () => 6,
  paddingRight: () => 6,
  paddingTop: () => 4,
  paddingBottom: () => 4,
};
