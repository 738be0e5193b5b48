/** A document as a PDF: nothing of it is lost on the way, and pages break where they may. */
import { describe, expect, test } from 'vitest';
import { PASS_RULES } from '../../../protocol/pass-rules.ts';
import { FONT_FILES } from '../../../server/http/report-pdf/pdf-fonts.ts';
import { printableSvg } from '../../../server/http/report-pdf/printable-svg.ts';
import { writePdf } from '../../../server/http/report-pdf/write-pdf.ts';
import type { Block, ReportDocument, Section } from '../../../web/report/report-document.ts';
import { writeBlock, writeSection } from '../../../web/report/write-blocks.ts';
import { english } from '../../../web/words/english.ts';
import { spanish } from '../../../web/words/spanish.ts';
import { signsOf } from '../../support/font-signs.ts';
import { examinePdf, lettersOf } from '../../support/poppler.ts';

const SVG =
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 720 400" font-family="sans-serif" font-size="12">' +
  '<path d="M0 0L700 380" stroke="#000" stroke-dasharray="2 4" />' +
  '<text paint-order="stroke" stroke="#fff" stroke-width="3.5" stroke-linejoin="round" x="9" y="90" text-anchor="start" fill="#000">In the figure</text></svg>';

const EVERY_BLOCK: readonly Block[] = [
  { kind: 'banner', name: 'A banner', statement: `It states <this> & ${'w'.repeat(200)}.` },
  { kind: 'title', text: 'The title' },
  { kind: 'heading', text: 'A part' },
  { kind: 'paragraph', text: 'Plain words.', manner: 'plain' },
  { kind: 'paragraph', text: 'Quiet words.', manner: 'quiet' },
  { kind: 'paragraph', text: 'A caution.', manner: 'caution' },
  {
    kind: 'facts',
    facts: [{ name: 'Inflow', value: `1.2·10⁻⁶ Pa·m³/s, ≤ 3 µm → −5 °C ${'v'.repeat(200)}` }],
  },
  { kind: 'list', columns: ['First', 'Second'], rows: [['one', 'x'.repeat(400)]] },
  {
    kind: 'verdict',
    tone: 'calm',
    headline: 'Undecided',
    sentences: ['This is why.'],
    rule: { headline: 'The rule', name: 'its name', remark: 'A remark.' },
  },
  { kind: 'figure', title: 'A curve', svg: SVG },
  { kind: 'hash', text: '01234567 89abcdef' },
  {
    kind: 'sign_off',
    columns: ['Name', 'Licence'],
    rows: [{ signer: 'Done by', cells: ['N. N.', 'z'.repeat(90)] }],
  },
];

function documentWith(
  sections: readonly Section[],
  rehearsal: ReportDocument['rehearsal'] = null,
): ReportDocument {
  return {
    language: 'en',
    name: 'Report 7, Quay',
    rehearsal,
    head: [],
    sections,
    running: {
      recording: 'Recording 7',
      software: 'Ebbline 9.8.7',
      hash: 'Hash 01234567 …',
      page: (page, of) => `Page ${page} of ${of}`,
    },
  };
}

const pdfOf = async (document: ReportDocument) =>
  examinePdf(await writePdf(document, { paper: 'A4', madeAt: new Date(0), attachments: [] }));

/** All that somebody reads of a block. */
function textsOf(block: unknown): string[] {
  if (typeof block === 'string') return block === '' ? [] : [block];
  if (typeof block !== 'object' || block === null) return [];
  return Object.entries(block).flatMap(([key, value]: [string, unknown]) =>
    ['kind', 'manner', 'tone', 'svg'].includes(key) ? [] : textsOf(value),
  );
}

test('each block says the same as a PDF and as a page', async () => {
  const sections = [{ heading: 'All of them', blocks: EVERY_BLOCK }];
  const { letters } = await pdfOf(documentWith(sections));
  const html = sections.map((section) => writeSection(section).text).join('');
  const page = lettersOf(html.replaceAll(/<[^>]*>/gu, '').replaceAll('&lt;', '<'))
    .replaceAll('&gt;', '>')
    .replaceAll('&amp;', '&');
  const texts = [...textsOf(sections), 'In the figure'];
  expect(texts.length).toBeGreaterThan(25);
  for (const text of texts) {
    expect(letters).toContain(lettersOf(text));
    expect(page).toContain(lettersOf(text));
  }
});

test('what no paper can show stands as unreadable in both, and ends no text', async () => {
  const block: Block = { kind: 'paragraph', text: 'before\u0007after', manner: 'plain' };
  const { letters } = await pdfOf(documentWith([{ heading: 'Odd', blocks: [block] }]));
  expect(letters).toContain('before\ufffdafter');
  expect(writeBlock(block).text).toContain('before\ufffdafter');
});

describe('pages', () => {
  test('repeat the head of a table, and cut no row in two', async () => {
    const note = (at: number) =>
      `${at} begins ${'and goes on '.repeat(at % 9 === 0 ? 40 : 1)}ends ${at}.`;
    const rows = Array.from({ length: 300 }, (_, at) => [String(at), note(at)]);
    const list: Block = { kind: 'list', columns: ['Number', 'What was noted'], rows };
    const { pages } = await pdfOf(documentWith([{ heading: 'Marks', blocks: [list] }]));
    expect(pages.length).toBeGreaterThan(8);
    for (const page of pages) expect(page).toContain('What was noted');
    for (const at of rows.keys()) {
      const [page, ...others] = pages.filter((text) => text.includes(`${at} begins `));
      expect(others.filter((text) => text.includes(`\n${at} begins `))).toEqual([]);
      expect(page).toContain(`ends ${at}.`);
    }
  });

  test('leave no heading alone at their foot', async () => {
    const sections = Array.from({ length: 200 }, (_, at): Section => {
      const filling = Array.from({ length: at % 11 }, (): Block => {
        return { kind: 'paragraph', text: 'It fills the page.', manner: 'plain' };
      });
      const first = `first of ${at}.`;
      const blocks: Block[] = [
        { kind: 'paragraph', text: first, manner: 'plain' },
        { kind: 'facts', facts: [{ name: 'name', value: first }] },
        {
          kind: 'list',
          columns: ['a', 'b'],
          rows: [
            [first, ''],
            ['', ''],
          ],
        },
      ];
      return { heading: `Heading ${at}.`, blocks: [...blocks.slice(at % 3), ...filling] };
    });
    const { pages } = await pdfOf(documentWith(sections));
    expect(pages.length).toBeGreaterThan(5);
    for (const at of sections.keys()) {
      const under = pages.find((page) => page.includes(`Heading ${at}.`));
      expect(under, `Heading ${at}`).toContain(`first of ${at}.`);
    }
  });
});

describe('letters', () => {
  const wording = [english, spanish].map(saidBy).join('');
  const sources = Object.values(PASS_RULES).map(({ source }) => JSON.stringify(source));
  const signs = new Set(`${wording}${sources.join('')}0123456789⁰¹²³⁴⁵⁶⁷⁸⁹⁻·×µ≤–−→±°…`);

  test.each([...FONT_FILES].filter((file) => !file.includes('Mono')))(
    '%s has all of them',
    (file) => {
      const has = signsOf(file);
      expect(signs.size).toBeGreaterThan(100);
      expect([...signs].filter((sign) => sign.trim() !== '' && !has(sign))).toEqual([]);
      expect(has('\u4e00')).toBe(false);
    },
  );
});

/** All that a wording may say, with something put into its sentences. */
function saidBy(entry: unknown): string {
  if (typeof entry === 'string') return entry;
  if (typeof entry === 'function') {
    const anything = new Proxy({}, { get: () => '2' });
    return String(Reflect.apply(entry, undefined, [anything]));
  }
  if (typeof entry !== 'object' || entry === null) return '';
  return Object.values(entry).map(saidBy).join('');
}

test('letters that lie on lines have the paper under them, not over them', () => {
  const svg = printableSvg(SVG);
  expect(svg).not.toContain('paint-order');
  expect(svg.indexOf('fill="none"')).toBeLessThan(svg.indexOf('fill="#000">In the figure'));
  expect(svg.match(/In the figure/gu)).toHaveLength(2);
});
