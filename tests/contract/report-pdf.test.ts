/** The report as a PDF, asked of a whole bridge and read by other programs than the one that wrote it. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { apiErrorSchema } from '../../protocol/api.ts';
import { parseReadingsCsv } from '../../protocol/readings-csv.ts';
import { recordingJsonSchema } from '../../protocol/recording-json.ts';
import { DEFAULT_SHEET } from '../../protocol/sheet.ts';
import { judge } from '../../web/analysis/judge.ts';
import { gridTime } from '../../web/analysis/readings/judging-grid.ts';
import { english } from '../../web/words/english.ts';
import { spanish } from '../../web/words/spanish.ts';
import { inSentences } from '../../web/words/said-conclusion.ts';
import { sayReportVerdict } from '../../web/words/say-report.ts';
import { speechOf } from '../../web/words/speech-of.ts';
import { historyOf } from '../support/invented-curves.ts';
import { type ExaminedPdf, examinePdf, lettersOf } from '../support/poppler.ts';
import { type PlayedJob, recordJobs } from '../support/recorded-job.ts';
import { runBridge, type RunningBridge } from '../support/running-bridge.ts';

const SITE = 'Calle del Peñón 3, «Ático»';
const MADE_AT_MS = Date.UTC(2026, 2, 5, 7, 8, 9);

const JOBS = {
  passed: {
    scenario: 'quarry-road-bakery',
    sheet: { site: SITE, volumeM3: 0.004, metalTemperatureC: 21, sensorSees: 'system' },
  },
  undecided: {
    scenario: 'weir-street-archive',
    untilS: 850,
    sensors: ['Roof gauge', 'Pump gauge'],
  },
  rehearsal: {
    scenario: 'weir-street-archive',
    origin: 'rehearsal',
    title: 'weir-street-archive',
    // As long as it may be: it must not push the word off the page.
    sheet: { site: 'W'.repeat(200) },
  },
} satisfies Record<string, PlayedJob>;
type Job = keyof typeof JOBS;

let bridge: RunningBridge;
const ids = new Map<string, number>();

beforeAll(async () => {
  const dataFolder = mkdtempSync(join(tmpdir(), 'printed-'));
  const recorded = await recordJobs(dataFolder, Object.values(JOBS));
  Object.keys(JOBS).forEach((name, at) => ids.set(name, recorded[at] ?? 0));
  bridge = await runBridge({ dataFolder, wallClock: () => MADE_AT_MS });
});
afterAll(() => bridge.remove());

const ask = (job: Job, path: string): Promise<Response> => {
  return fetch(new URL(`api/recordings/${ids.get(job)}/${path}`, bridge.url));
};

async function printed(job: Job, query = ''): Promise<{ pdf: ExaminedPdf; answer: Response }> {
  const answer = await ask(job, `report.pdf?${query}`);
  expect(answer.status).toBe(200);
  return { answer, pdf: examinePdf(Buffer.from(await answer.arrayBuffer())) };
}

/** The texts of the page that say it, as a reader sees them. */
async function shownOnPage(job: Job, query: string, pattern: RegExp): Promise<string[]> {
  const html = await (await ask(job, `report?${query}`)).text();
  const found = [...html.matchAll(pattern)].map(([, text = '']) => text);
  return found.map((text) => text.replaceAll('&#39;', "'").replaceAll('&amp;', '&'));
}

describe('a job that passed', () => {
  let pdf: ExaminedPdf;
  let answer: Response;

  beforeAll(async () => {
    ({ pdf, answer } = await printed('passed', 'language=es&paper=Letter&unit=Pa'));
  });

  test('says what the page says, number by number', async () => {
    const query = 'language=es&unit=Pa';
    const [headline] = await shownOnPage('passed', query, /<strong>([^<]*)/gu);
    expect(headline).toBe(spanish.verdict.names.tight_dry);
    expect(pdf.pages[0]).toContain(headline);
    const cells = await shownOnPage('passed', query, /<t[dh][^>]*>([^<]+)</gu);
    expect(cells.length).toBeGreaterThan(80);
    for (const cell of cells) expect(pdf.letters).toContain(lettersOf(cell));
    const sentences = await shownOnPage('passed', query, /<p class="(?:plain|caution)">([^<]+)</gu);
    expect(sentences.length).toBeGreaterThan(5);
    for (const sentence of sentences) expect(pdf.letters).toContain(lettersOf(sentence));
    expect(pdf.letters).toContain(lettersOf(SITE));
    expect(pdf.letters).toContain(lettersOf('·10⁻'));
  });

  test('has the numbers of its pages and the name of the job on each', () => {
    const { pages } = pdf;
    expect(pages.length).toBeGreaterThan(3);
    for (const [at, page] of pages.entries()) {
      expect(page).toContain(`Página ${at + 1} de ${pages.length}`);
      expect(page).toContain(`Informe ${ids.get('passed')}, ${SITE}`);
      expect(page).not.toContain(spanish.report.rehearsalStamp);
    }
  });

  test('is on Letter where that is asked for, and says what it is', () => {
    expect(pdf.info['Page size']).toMatch(/^612 x 792 pts/u);
    expect(pdf.info['Title']).toBe(`Informe ${ids.get('passed')}, ${SITE}`);
    expect(pdf.info['CreationDate']).toBe('2026-03-05T07:08:09Z');
    expect(pdf.info['Producer']).toMatch(/^Ebbline \d/u);
    expect(pdf.info['JavaScript']).toBe('no');
    expect(answer.headers.get('content-type')).toBe('application/pdf');
    const id = ids.get('passed');
    expect(answer.headers.get('content-disposition')).toBe(
      `attachment; filename="2026-03-04-calle-del-penon-3-atico-informe-${id}.pdf"; ` +
        `filename*=UTF-8''2026-03-04-calle-del-pe%C3%B1%C3%B3n-3-%C3%A1tico-informe-${id}.pdf`,
    );
  });

  test('is drawn, not photographed, in letters that it carries', () => {
    expect(pdf.images).toBe(0);
    expect(pdf.fonts.length).toBeGreaterThan(2);
    for (const { name, embedded, subset } of pdf.fonts) {
      expect({ name, embedded, subset }).toEqual({ name, embedded: true, subset: true });
    }
    expect(Number.parseInt(pdf.info['File size'] ?? '', 10)).toBeLessThan(200_000);
  });

  test('carries the readings as they are exported, and they give the same verdict', async () => {
    expect([...pdf.attachments.keys()].sort()).toEqual(['readings.csv', 'recording.json']);
    const csv = await (await ask('passed', 'readings.csv')).text();
    expect(pdf.attachments.get('readings.csv')?.toString()).toBe(csv);
    const rows = parseReadingsCsv(csv);
    const json: unknown = JSON.parse(pdf.attachments.get('recording.json')?.toString() ?? '');
    const { recording, readings, marks, sheet, verified } = recordingJsonSchema.parse(json);
    expect(recording.id).toBe(ids.get('passed'));
    expect(readings.elapsedS).toEqual(rows.map(({ elapsedS }) => elapsedS));
    expect(readings.pressurePa).toEqual(rows.map(({ pressurePa }) => pressurePa));
    expect(readings.uptimeMs.slice(0, 3)).toEqual([0, 1000, 2000]);
    expect(sheet[0]?.fields.site).toBe(SITE);
    const hash = verified?.hash.replaceAll(/(.{8})(?=.)/gu, '$1 ') ?? 'none';
    expect(pdf.letters).toContain(lettersOf(hash));
    const history = historyOf(
      rows.map(({ elapsedS, pressurePa, temperatureC }) => ({
        elapsedS,
        pressurePa,
        temperatureC,
        condition: pressurePa === null ? 'over_range' : 'ok',
      })),
    );
    const entered = { ...DEFAULT_SHEET, ...JOBS.passed.sheet };
    const { rise } = judge(history, marks, entered, gridTime(rows.at(-1)?.elapsedS ?? 0));
    if (rise === null) throw new Error('the hold was marked');
    const speech = speechOf('es', { pressure: 'Pa', temperature: '°C' });
    const said = sayReportVerdict(rise, entered, speech, false);
    expect(inSentences(said).length).toBeGreaterThan(2);
    for (const sentence of [said.headline, ...inSentences(said)]) {
      expect(lettersOf(pdf.pages[0] ?? '')).toContain(lettersOf(sentence));
    }
  });
});

describe('an open question, seen by two sensors', () => {
  let pdf: ExaminedPdf;
  let answer: Response;

  beforeAll(async () => {
    ({ pdf, answer } = await printed('undecided'));
  });

  test('is printed as that, on A4 where nothing is asked for', () => {
    expect(pdf.pages[0]).toContain(english.report.undecided);
    for (const name of ['tight_dry', 'leak'] as const) {
      expect(pdf.letters).not.toContain(lettersOf(english.verdict.names[name]));
    }
    expect(pdf.info['Page size']).toMatch(/^595\.28 x 841\.89 pts \(A4\)/u);
    expect(answer.headers.get('content-disposition')).toBe(
      `attachment; filename="2026-03-04-report-${ids.get('undecided')}.pdf"`,
    );
  });

  test('has a file for each of them', async () => {
    const names = ['readings-sensor-1.csv', 'readings-sensor-2.csv', 'recording.json'];
    expect([...pdf.attachments.keys()].sort()).toEqual(names);
    for (const channel of [0, 1]) {
      const exported = await (await ask('undecided', `readings.csv?channel=${channel}`)).text();
      expect(pdf.attachments.get(`readings-sensor-${channel + 1}.csv`)?.toString()).toBe(exported);
    }
    for (const name of names) expect(pdf.letters).toContain(lettersOf(name));
  });
});

test('a rehearsal says so across every page and above it, and has nothing to sign', async () => {
  const { pdf } = await printed('rehearsal');
  const { rehearsalStamp, rehearsalEdge, noSignOff, signers } = english.report;
  expect(pdf.pages.length).toBeGreaterThan(3);
  const across = Array.from(rehearsalStamp).join('\n');
  for (const page of pdf.pages) {
    expect(page).toContain(`\n${across}\n`);
    expect(page).toContain(rehearsalEdge);
  }
  expect(pdf.letters).toContain(lettersOf(noSignOff));
  expect(pdf.letters).not.toContain(lettersOf(signers[0] ?? ''));
});

test('an unknown recording is said to be none, and an unknown paper to be wrong', async () => {
  const none = await fetch(new URL('api/recordings/4711/report.pdf', bridge.url));
  expect(none.status).toBe(404);
  expect(apiErrorSchema.parse(await none.json()).code).toBe('not_found');
  const wrong = await ask('passed', 'report.pdf?paper=A9');
  expect(wrong.status).toBe(400);
  expect(apiErrorSchema.parse(await wrong.json())).toMatchObject({ code: 'bad_request' });
});
