/** What stands on every page of the PDF: its head, its foot, and across it that it is no job. */
import type { Content, Margins } from 'pdfmake/interfaces';
import { PRINT } from '../../../web/figure/print-palette.ts';
import type { ReportDocument } from '../../../web/report/report-document.ts';
import { markup } from '../../../web/figure/markup.ts';
import { LETTERS, MARGIN } from './pdf-look.ts';
import { plainText } from './plain-text.ts';

interface PageSize {
  readonly width: number;
  readonly height: number;
}

export function headOfPage({ name, rehearsal }: ReportDocument, size: PageSize): Content {
  const margin: Margins = [MARGIN.side, 26, MARGIN.side, 0];
  const named = { text: plainText(name), color: PRINT.faint, width: '*' };
  if (rehearsal === null) return { margin, fontSize: LETTERS.edge, columns: [named] };
  const edge = { text: rehearsal.edge, bold: true, color: PRINT.buoy, width: 'auto' };
  const head = { margin, fontSize: LETTERS.edge, columns: [named, edge], columnGap: 12 };
  // The library draws heads after all else, so that nothing on the page can cover the word.
  const stamp = { svg: stampSvg(rehearsal.stamp, size), absolutePosition: { x: 0, y: 0 } };
  return { stack: [head, stamp] };
}

export function footOfPage({ running }: ReportDocument, page: number, of: number): Content {
  const { recording, software, hash } = running;
  return {
    margin: [MARGIN.side, 18, MARGIN.side, 0],
    fontSize: LETTERS.edge,
    color: PRINT.faint,
    columns: [
      { text: `${recording} · ${software}`, width: '*' },
      { text: hash, alignment: 'center', width: '*' },
      { text: running.page(page, of), alignment: 'right', width: '*' },
    ],
  };
}

/** In outline: what is under it can still be read. */
function stampSvg(text: string, { width, height }: PageSize): string {
  const angle = (-Math.atan2(height, width) * 180) / Math.PI;
  const letters = (Math.hypot(width, height) * 0.78) / (text.length * 0.7);
  const [x, y] = [width / 2, height / 2];
  return markup`<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">
<g transform="translate(${x} ${y}) rotate(${angle})"><text y="${letters * 0.36}" text-anchor="middle" font-family="serif" font-weight="bold" font-size="${letters}" fill="none" stroke="${PRINT.buoy}" stroke-opacity="0.4" stroke-width="1.1">${text}</text></g>
</svg>`.text;
}
