/** What a report can't be passed off as: framed, and before all else. */
import type { Content, CustomTableLayout } from 'pdfmake';
import { PRINT } from '../../../web/figure/print-palette.ts';
import type { Block } from '../../../web/report/report-document.ts';
import { LETTERS } from './pdf-look.ts';
import { plainText } from './plain-text.ts';

const FRAME_PT = 2;
const PADDING_PT = 9;

const FRAME: CustomTableLayout = {
  hLineWidth: () => FRAME_PT,
  vLineWidth: () => FRAME_PT,
  hLineColor: () => PRINT.buoy,
  vLineColor: () => PRINT.buoy,
  paddingLeft: () => PADDING_PT,
  paddingRight: () => PADDING_PT,
  paddingTop: () => 6,
  paddingBottom: () => 7,
};

export function bannerTable(
  { name, statement }: Extract<Block, { kind: 'banner' }>,
  widthPt: number,
): Content {
  const stack = [
    {
      text: plainText(name),
      bold: true,
      fontSize: LETTERS.banner,
      color: PRINT.buoy,
      marginBottom: 2,
    },
    { text: plainText(statement), bold: true },
  ];
  const width = widthPt - 2 * (FRAME_PT + PADDING_PT);
  return { marginBottom: 10, layout: FRAME, table: { widths: [width], body: [[{ stack }]] } };
}
