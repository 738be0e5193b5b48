/** The blocks of a report's document as what the PDF library lays out. */
import type { Content } from 'pdfmake/interfaces';
import { PRINT } from '../../../web/figure/print-palette.ts';
import type {
  Block,
  Manner,
  ReportDocument,
  Section,
} from '../../../web/report/report-document.ts';
import { LETTERS } from './pdf-look.ts';
import { factsTable, listTable, signOffTable } from './pdf-tables.ts';
import { verdictTable } from './pdf-verdict.ts';
import { plainText } from './plain-text.ts';
import { printableSvg } from './printable-svg.ts';

/** @param widthPt from margin to margin */
export function contentOf({ head, sections }: ReportDocument, widthPt: number): Content[] {
  return [
    ...head.map((block) => contentOfBlock(block, [], widthPt)),
    ...sections.flatMap((section) => contentOfSection(section, widthPt)),
  ];
}

/** What a heading stands over is kept with it: none is left alone at the foot of a page. */
function contentOfSection({ heading, blocks }: Section, widthPt: number): Content[] {
  let headings: Content[] = [sectionHeading(heading)];
  const content: Content[] = [];
  for (const block of blocks) {
    if (block.kind === 'heading') {
      headings.push(partHeading(block.text));
      continue;
    }
    content.push(contentOfBlock(block, headings, widthPt));
    headings = [];
  }
  return content;
}

function contentOfBlock(block: Block, headings: readonly Content[], widthPt: number): Content {
  switch (block.kind) {
    case 'banner':
      return bannerBox(block.name, block.statement);
    case 'title':
      return {
        text: plainText(block.text),
        font: 'serif',
        bold: true,
        fontSize: LETTERS.title,
        marginBottom: 5,
      };
    case 'heading':
      return partHeading(block.text);
    case 'paragraph':
      return together(headings, paragraph(block.text, block.manner));
    case 'facts':
      return together(headings, factsTable(block.facts));
    case 'list':
      return listTable(block, headings);
    case 'verdict':
      return together(headings, verdictTable(block));
    case 'figure': {
      const drawn = { svg: printableSvg(block.svg), width: widthPt };
      return together([...headings, partHeading(block.title)], drawn);
    }
    case 'hash':
      return together(headings, {
        text: block.text,
        font: 'monospace',
        fontSize: LETTERS.hash,
        marginBottom: 4,
      });
    case 'sign_off':
      return together(headings, signOffTable(block));
  }
}

function together(headings: readonly Content[], content: Content): Content {
  return { unbreakable: true, stack: [...headings, content] };
}

function sectionHeading(text: string): Content {
  return {
    text: plainText(text),
    font: 'serif',
    bold: true,
    fontSize: LETTERS.section,
    margin: [0, 14, 0, 4],
  };
}

function partHeading(text: string): Content {
  return { text: plainText(text), bold: true, fontSize: LETTERS.part, margin: [0, 7, 0, 2] };
}

const MANNERS: Readonly<Record<Manner, object>> = {
  plain: {},
  quiet: { color: PRINT.faint, fontSize: LETTERS.quiet },
  caution: { bold: true },
};

function paragraph(text: string, manner: Manner): Content {
  return { text: plainText(text), margin: [0, 3, 0, 2], ...MANNERS[manner] };
}

function bannerBox(name: string, statement: string): Content {
  return {
    unbreakable: true,
    marginBottom: 10,
    layout: {
      hLineWidth: () => 2,
      vLineWidth: () => 2,
      hLineColor: () => PRINT.buoy,
      vLineColor: () => PRINT.buoy,
      paddingLeft: () => 9,
      paddingRight: () => 9,
      paddingTop: () => 6,
      paddingBottom: () => 7,
    },
    table: {
      widths: ['*'],
      body: [
        [
          {
            stack: [
              {
                text: plainText(name),
                bold: true,
                fontSize: 13,
                color: PRINT.buoy,
                marginBottom: 2,
              },
              { text: plainText(statement), bold: true },
            ],
          },
        ],
      ],
    },
  };
}
