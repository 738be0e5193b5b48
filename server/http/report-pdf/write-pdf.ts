/** A report as a PDF: text that can be selected, figures as vectors, raw data as files within it. */
import { once } from 'node:events';
import pdfmake from 'pdfmake';
import type { TDocumentDefinitions } from 'pdfmake/interfaces';
import type { Paper } from '../../../protocol/api.ts';
import type { ReportDocument } from '../../../web/report/report-document.ts';
import { contentOf } from './pdf-content.ts';
import { FONT_FILES, PDF_FONTS } from './pdf-fonts.ts';
import { footOfPage, headOfPage } from './pdf-frame.ts';
import { LETTERS, MARGIN, PAPER_SIZES } from './pdf-look.ts';
import { PRINT } from '../../../web/figure/print-palette.ts';

/** A file that the PDF carries. */
export interface Attachment {
  readonly name: string;
  readonly mediaType: string;
  readonly bytes: Buffer;
}

export interface PdfOptions {
  readonly paper: Paper;
  readonly madeAt: Date;
  readonly attachments: readonly Attachment[];
}

// Nothing in a report comes from anywhere but the report.
pdfmake.setFonts(PDF_FONTS);
pdfmake.setUrlAccessPolicy(() => false);
pdfmake.setLocalAccessPolicy((path) => FONT_FILES.has(path));

export async function writePdf(document: ReportDocument, options: PdfOptions): Promise<Buffer> {
  const { paper, madeAt, attachments } = options;
  const pdf = await pdfmake.createPdf(definitionOf(document, paper, madeAt)).getStream();
  for (const { name, mediaType, bytes } of attachments) {
    pdf.file(bytes, { name, type: mediaType, creationDate: madeAt, modifiedDate: madeAt });
  }
  const parts: Buffer[] = [];
  pdf.on('data', (part: Buffer) => parts.push(part));
  pdf.end();
  await once(pdf, 'end');
  return Buffer.concat(parts);
}

function definitionOf(document: ReportDocument, paper: Paper, madeAt: Date): TDocumentDefinitions {
  const [width, height] = PAPER_SIZES[paper];
  return {
    version: '1.7',
    language: document.language,
    displayTitle: true,
    info: {
      title: document.name,
      creator: document.running.software,
      producer: document.running.software,
      creationDate: madeAt,
    },
    pageSize: { width, height },
    pageMargins: [MARGIN.side, MARGIN.top, MARGIN.side, MARGIN.bottom],
    defaultStyle: {
      font: 'sans-serif',
      fontSize: LETTERS.text,
      lineHeight: 1.15,
      color: PRINT.ink,
    },
    header: (_page, _of, size) => headOfPage(document, size),
    footer: (page, of) => footOfPage(document, page, of),
    content: contentOf(document, width - 2 * MARGIN.side),
  };
}
