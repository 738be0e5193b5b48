/** The verdict in the PDF: large, in a frame whose shape says the same as its colour. */
import type { Content, ContentTable, CustomTableLayout } from 'pdfmake/interfaces';
import { PRINT } from '../../../web/figure/print-palette.ts';
import type { VerdictBlock } from '../../../web/report/report-document.ts';
import { LETTERS } from './pdf-look.ts';
import { plainText } from './plain-text.ts';

/** The bar before it, pt. */
const BAR_PT = 7;

export function verdictTable({ tone, headline, sentences, rule }: VerdictBlock): ContentTable {
  const said: Content[] = [
    { text: plainText(headline), bold: true, fontSize: LETTERS.verdict, marginBottom: 4 },
    ...sentences.map((sentence): Content => ({ text: plainText(sentence), marginBottom: 3 })),
    ...(rule === null ? [] : [ruleLine(rule)]),
  ];
  return { layout: FRAMES[tone], table: { widths: [0, '*'], body: [['', { stack: said }]] } };
}

function ruleLine({ headline, name, remark }: NonNullable<VerdictBlock['rule']>): Content {
  return {
    text: [{ text: plainText(headline), bold: true }, { text: plainText(` (${name}). ${remark}`) }],
    marginTop: 4,
  };
}

const common: CustomTableLayout = {
  hLineWidth: () => 0.8,
  vLineWidth: (line) => (line === 0 ? BAR_PT : line === 1 ? 0 : 0.8),
  hLineColor: () => PRINT.ink,
  vLineColor: () => PRINT.ink,
  paddingLeft: (column) => (column === 0 ? 0 : 10),
  paddingRight: (column) => (column === 0 ? 0 : 10),
  paddingTop: () => 8,
  paddingBottom: () => 6,
};

/** A doubled bar for a pass, a whole one for a warning, and dashes for an open question. */
const FRAMES: Readonly<Record<VerdictBlock['tone'], CustomTableLayout>> = {
  good: { ...common, vLineWidth: (line) => (line === 2 ? 0.8 : 2.4), paddingRight: pastSecondBar },
  warning: { ...common, vLineColor: (line) => (line === 0 ? PRINT.buoy : PRINT.ink) },
  calm: {
    ...common,
    hLineStyle: () => ({ dash: { length: 5, space: 3 } }),
    vLineStyle: () => ({ dash: { length: 5, space: 3 } }),
  },
};

function pastSecondBar(column: number): number {
  return column === 0 ? 2.4 : 10;
}
