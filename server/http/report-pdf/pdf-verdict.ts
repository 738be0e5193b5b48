/** The verdict in the PDF: large, in a frame whose shape says the same as its colour. */
import type { Content, CustomTableLayout } from 'pdfmake';
import { PRINT } from '../../../web/figure/print-palette.ts';
import type { VerdictBlock } from '../../../web/report/report-document.ts';
import { LETTERS } from './pdf-look.ts';
import { plainText } from './plain-text.ts';

/** The bar before it, pt. */
const BAR_PT = 7;
const LINE_PT = 0.8;
const PADDING_PT = 10;
/** A doubled bar: two strokes with as much between them. */
const STROKE_PT = BAR_PT / 3;

export function verdictTable(
  { tone, headline, sentences, rule }: VerdictBlock,
  widthPt: number,
): Content {
  const said: Content[] = [
    { text: plainText(headline), bold: true, fontSize: LETTERS.verdict, marginBottom: 4 },
    ...sentences.map((sentence): Content => ({ text: plainText(sentence), marginBottom: 3 })),
    ...(rule === null ? [] : [ruleLine(rule)]),
  ];
  const width = widthPt - 2 * PADDING_PT - BAR_PT - LINE_PT;
  return { layout: FRAMES[tone], table: { widths: [0, width], body: [['', { stack: said }]] } };
}

function ruleLine({ headline, name, remark }: NonNullable<VerdictBlock['rule']>): Content {
  return {
    text: [{ text: plainText(headline), bold: true }, { text: plainText(` (${name}). ${remark}`) }],
    marginTop: 4,
  };
}

const common: CustomTableLayout = {
  hLineWidth: () => LINE_PT,
  vLineWidth: (line) => (line === 0 ? BAR_PT : line === 1 ? 0 : LINE_PT),
  hLineColor: () => PRINT.ink,
  vLineColor: () => PRINT.ink,
  paddingLeft: (column) => (column === 0 ? 0 : PADDING_PT),
  paddingRight: (column) => (column === 0 ? 0 : PADDING_PT),
  paddingTop: () => 8,
  paddingBottom: () => 6,
};

/** A doubled bar for a pass, a whole one for a warning, and dashes for an open question. */
const FRAMES: Readonly<Record<VerdictBlock['tone'], CustomTableLayout>> = {
  good: {
    ...common,
    vLineWidth: (line) => (line === 2 ? LINE_PT : STROKE_PT),
    paddingRight: (column) => (column === 0 ? STROKE_PT : PADDING_PT),
  },
  warning: { ...common, vLineColor: (line) => (line === 0 ? PRINT.buoy : PRINT.ink) },
  calm: {
    ...common,
    hLineStyle: () => ({ dash: { length: 5, space: 3 } }),
    vLineStyle: () => ({ dash: { length: 5, space: 3 } }),
  },
};
