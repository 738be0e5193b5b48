/** The report of a real recording, asked of a whole bridge. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { apiErrorSchema, recordingDetailSchema, rehearsalListSchema } from '../../protocol/api.ts';
import { parseReadingsCsv } from '../../protocol/readings-csv.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import { verifiedSchema } from '../../protocol/verified.ts';
import { DEFAULT_SHEET } from '../../protocol/sheet.ts';
import { judge } from '../../web/analysis/judge.ts';
import { gridTime } from '../../web/analysis/readings/judging-grid.ts';
import { numbersOf } from '../../web/analysis/numbers.ts';
import { englishIn } from '../support/english-speech.ts';
import { english } from '../../web/words/english.ts';
import { spanish } from '../../web/words/spanish.ts';
import { listVerdictNumbers } from '../../web/words/list-verdict-numbers.ts';
import { historyOf } from '../support/invented-curves.ts';
import { runBridge } from '../support/running-bridge.ts';
import type { RunningBridge } from '../support/running-bridge.ts';
import { StreamClient } from '../support/stream-client.ts';

let bridge: RunningBridge;

beforeAll(async () => {
  bridge = await runBridge();
});
afterAll(() => bridge.remove());

const ask = (path: string): Promise<Response> => fetch(new URL(path, bridge.url));

function post(path: string, body: unknown): Promise<Response> {
  return fetch(new URL(path, bridge.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
}

/** A trainee who pumps for a while, valves off, and holds for some minutes of data time. */
async function rehearse(): Promise<number> {
  const { rehearsals } = rehearsalListSchema.parse(await (await ask('api/rehearsals')).json());
  const start = { name: rehearsals[0]?.name, rate: 120, helper: false };
  const { id } = recordingSchema.parse(await (await post('api/rehearsals', start)).json());
  const client = new StreamClient(bridge.url);
  await client.until(() => client.heard[0]?.type === 'hello');
  client.send({ type: 'follow', recordingId: id, afterIndex: 0 });
  await post('api/rehearsals/current', { action: 'pump_on' });
  await client.until(() => client.indexes().length >= 700);
  await post('api/rehearsals/current', { action: 'isolate' });
  await client.until(() => client.indexes().length >= 1100);
  await post('api/rehearsals/current', { stop: true });
  await client.until(() =>
    client.heard.some((said) => said.type === 'recording' && !said.recording.open),
  );
  client.close();
  return id;
}

test('a rehearsal’s report has the verdict that the judge draws from the exported rows', async () => {
  const id = await rehearse();
  const answer = await ask(
    `api/recordings/${id}/report?unit=Pa&temperature=${encodeURIComponent('°F')}`,
  );
  expect(answer.status).toBe(200);
  expect(answer.headers.get('content-type')).toBe('text/html; charset=utf-8');
  const html = await answer.text();

  const detail = recordingDetailSchema.parse(await (await ask(`api/recordings/${id}`)).json());
  const rows = parseReadingsCsv(await (await ask(`api/recordings/${id}/readings.csv`)).text());
  const history = historyOf(
    rows.map(({ elapsedS, pressurePa, temperatureC }) => ({
      elapsedS,
      pressurePa,
      temperatureC,
      condition: pressurePa === null ? 'over_range' : 'ok',
    })),
  );
  const nowS = gridTime(rows.at(-1)?.elapsedS ?? 0);
  const conclusions = judge(history, detail.marks, DEFAULT_SHEET, nowS);
  const { stage, rise } = conclusions;
  if (rise === null) throw new Error('the hold was marked');
  expect(stage.name).toBe('rise');
  const speech = englishIn({ pressure: 'Pa', temperature: '°F' });
  expect(html).toContain(`<strong>${english.verdict.names[rise.verdict]}`);
  const numbers = numbersOf(history, conclusions, DEFAULT_SHEET, {
    marks: detail.marks,
    entries: [],
  });
  const groups = listVerdictNumbers(rise, numbers, DEFAULT_SHEET, speech);
  for (const { name, value } of groups.flatMap(({ rows }) => rows)) {
    expect(html).toContain(`<th scope="row">${name}</th><td>${value}</td>`);
  }
  expect(html).toContain(`<td>${rows.length}: `);
  expect(html).toContain('class="stamp"');
  expect(html).toContain('>Rehearsal</text>');
});

test('it speaks the language that is asked for, English where none is, and no unknown one', async () => {
  const answer = await post('api/rehearsals', { name: 'quarry-road-bakery' });
  const { id } = recordingSchema.parse(await answer.json());
  const pages = await Promise.all(
    ['language=es', 'language=en', ''].map(async (query) =>
      (await ask(`api/recordings/${id}/report?${query}`)).text(),
    ),
  );
  expect(pages.map((page) => /<html lang="(..)">/u.exec(page)?.[1])).toEqual(['es', 'en', 'en']);
  expect(pages[0]).toContain(spanish.report.rehearsalTitle);
  const unknown = await ask(`api/recordings/${id}/report?language=xx`);
  expect(apiErrorSchema.parse(await unknown.json()).code).toBe('bad_request');
});

test('an unknown recording is said to be none, an unknown unit to be wrong', async () => {
  const none = await ask('api/recordings/4711/report');
  expect(none.status).toBe(404);
  expect(apiErrorSchema.parse(await none.json()).code).toBe('not_found');
  const id = recordingSchema.parse(
    await (await post('api/rehearsals', { name: 'quarry-road-bakery' })).json(),
  ).id;
  const wrong = await ask(`api/recordings/${id}/report?unit=furlong`);
  expect(wrong.status).toBe(400);
  expect(apiErrorSchema.parse(await wrong.json()).code).toBe('bad_request');
});

test('the hash on a report is that of the record, and changes with the next fact', async () => {
  const id = await rehearse();
  const hashOn = async () => {
    const page = await (await ask(`api/recordings/${id}/report`)).text();
    return /<p class="hash">([0-9a-f ]{71})<\/p>/u.exec(page)?.[1]?.replaceAll(' ', '') ?? '';
  };
  const verified = async () =>
    verifiedSchema.parse(await (await ask(`api/recordings/${id}/verified`)).json());
  const before = await verified();
  expect(before).toMatchObject({ broken: null, addedLater: 0 });
  expect(before.facts).toBeGreaterThan(1100);
  expect(await hashOn()).toBe(before.hash);
  await post(`api/recordings/${id}/sheet`, { elapsedS: 1, fields: { site: 'Quay' } });
  const after = await verified();
  expect(after.facts).toBe(before.facts + 1);
  expect(after.hash).not.toBe(before.hash);
  expect(await hashOn()).toBe(after.hash);
});
