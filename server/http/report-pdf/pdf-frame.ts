/** What stands on every page of the PDF: its head, its foot, and across it that it is no job. */
import type { Content } from 'pdfmake';
import { PRINT } from '../../../web/figure/print-palette.ts';
import type { ReportDocument } from '../../../web/report/report-document.ts';
import { markup } from '../../../web/figure/markup.ts';
import { LETTERS, MARGIN } from './pdf-look.ts';
import { plainText } from './plain-text.ts';

/** So many signs of a name fit in a line, alone and beside what a rehearsal says there. */
const NAME_ALONE = 90;
const NAME_BESIDE = 40;

interface PageSize {
  readonly width: number;
  readonly height: number;
}

export function headOfPage({ name, rehearsal }: ReportDocument, size: PageSize): Content {
  const margin: [number, number, number, number] = [MARGIN.side, 26, MARGIN.side, 0];
  // What is higher than the edge is dropped by the library, and all that comes with it.
  const named = {
    text: shortened(plainText(name), rehearsal === null ? NAME_ALONE : NAME_BESIDE),
    color: PRINT.faint,
  };
  if (rehearsal === null) return { margin, fontSize: LETTERS.edge, ...named };
  const half = (size.width - 2 * MARGIN.side) / 2;
  const edge = { text: rehearsal.edge, bold: true, color: PRINT.buoy, alignment: 'right' as const };
  const columns = [named, edge].map((column) => ({ ...column, width: half }));
  const head = { margin, fontSize: LETTERS.edge, columns };
  // The library draws heads after all else, so that nothing on the page can cover the word.
  const stamp = { svg: stampSvg(rehearsal.stamp, size), absolutePosition: { x: 0, y: 0 } };
  return { stack: [stamp, head] };
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

function shortened(text: string, most: number): string {
  const signs = Array.from(text);
  return signs.length <= most
    ? text
    : `${signs
        .slice(0, most - 1)
        .join('')
        .trimEnd()}…`;
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
