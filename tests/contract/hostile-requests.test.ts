/** The web side under attack: other pages, other names, paths, bodies and files that mean harm, here and on the local network. */
import { readFileSync } from 'node:fs';
import { connect } from 'node:net';
import { hostname } from 'node:os';
import Fastify from 'fastify';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { apiErrorSchema } from '../../protocol/api.ts';
import { csvRows } from '../../protocol/csv-cells.ts';
import { FULL_CSV_COLUMNS, FullCsvRows } from '../../protocol/full-csv.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import { guard } from '../../server/http/guard.ts';
import { offeredCode, OtherScreen, pairedScreen } from '../support/other-screen.ts';
import { runBridge, type RunningBridge } from '../support/running-bridge.ts';
import { StreamClient } from '../support/stream-client.ts';
import { WebSocket } from 'ws';

let bridge: RunningBridge;
let recordingId = 0;
let assisting: OtherScreen;

beforeAll(async () => {
  bridge = await runBridge({ shareAddresses: ['127.0.0.3'] });
  const answer = await post('api/typed-in', '{"pressurePa":4000,"temperatureC":null}');
  recordingId = recordingSchema.parse(await answer.json()).id;
  assisting = await pairedScreen(bridge, 'assist');
});
afterAll(() => bridge.remove());

function post(path: string, body: string, headers: Record<string, string> = {}): Promise<Response> {
  const all = { 'content-type': 'application/json', ...headers };
  return fetch(new URL(path, bridge.url), { method: 'POST', headers: all, body });
}

/** What a socket answers to bytes that no client library would send. */
function answerTo(bytes: string): Promise<string> {
  const { hostname: host, port } = new URL(bridge.url);
  return new Promise((resolve, reject) => {
    let heard = '';
    const socket = connect({ host, port: Number(port) }, () => socket.write(bytes));
    socket.on('data', (data) => (heard += data.toString('utf8')));
    socket.on('close', () => resolve(heard)).on('error', reject);
  });
}

function answerToGet(path: string, headers = ''): Promise<string> {
  const { host } = new URL(bridge.url);
  return answerTo(`GET ${path} HTTP/1.1\r\nHost: ${host}\r\nConnection: close\r\n${headers}\r\n`);
}

function statusOf(answer: string): number {
  return Number(answer.split(' ')[1]);
}

/** An address of the bridge on this computer under another name, as DNS rebinding has it. */
const REBOUND = 'wall-clock.example';

describe('a page from elsewhere, in the browser of the laptop', () => {
  const port = () => new URL(bridge.url).port;

  test.each([
    ['under a name of its own that leads here', `Host: ${REBOUND}`],
    ['under a name that only begins like ours', 'Host: 127.0.0.1.elsewhere.example'],
  ])('reads nothing %s', async (_what, host) => {
    for (const path of ['/', '/api/recordings', '/api/health']) {
      const bytes = `GET ${path} HTTP/1.1\r\n${host}\r\nConnection: close\r\n\r\n`;
      expect(statusOf(await answerTo(bytes))).toBe(403);
    }
  });

  test.each([
    ['of another site', () => 'https://elsewhere.example'],
    ['of another program on this computer', () => `http://127.0.0.1:${Number(port()) + 1}`],
    ['of this address without the port', () => 'http://127.0.0.1'],
    ['of this address over another protocol', () => `https://127.0.0.1:${port()}`],
    ['of a sandboxed frame', () => 'null'],
  ])('changes nothing, with an Origin %s', async (_what, origin) => {
    const mark = '{"kind":"note","elapsedS":0,"text":"from elsewhere"}';
    const path = `api/recordings/${recordingId}/marks`;
    const answer = await post(path, mark, { origin: origin() });
    expect(answer.status).toBe(403);
    expect(apiErrorSchema.parse(await answer.json()).code).toBe('foreign_page');
    const client = new StreamClient(bridge.url, { origin: origin() });
    await client.until(() => client.closeCode !== null);
    expect(client.heard).toEqual([]);
    const detail = await fetch(new URL(`api/recordings/${recordingId}`, bridge.url));
    expect(await detail.text()).not.toContain('from elsewhere');
  });

  test.each(['cross-site', 'same-site'])(
    'asks for nothing by a picture or a form of its own: %s',
    async (site) => {
      const told = `Sec-Fetch-Site: ${site}\r\n`;
      expect(statusOf(await answerToGet('/api/backup', told))).toBe(403);
      // A link to the page itself may stand anywhere.
      expect(statusOf(await answerToGet('/', told))).toBe(200);
    },
  );

  test('own pages and programs on this computer are heard', async () => {
    const { origin } = new URL(bridge.url);
    const mark = '{"kind":"note","elapsedS":0,"text":"own"}';
    const path = `api/recordings/${recordingId}/marks`;
    expect((await post(path, mark, { origin, 'sec-fetch-site': 'same-origin' })).status).toBe(201);
    expect((await post(path, mark)).status).toBe(201);
  });
});

describe('on the local network', () => {
  test('nothing is answered under another name, to a paired screen either', async () => {
    const { port } = assisting.address;
    for (const host of [
      `${REBOUND}:${port}`,
      '127.0.0.3',
      `127.0.0.3:${Number(port) + 1}`,
      `127.0.0.1:${port}`,
      `localhost.elsewhere.example:${port}`,
    ]) {
      const said = await assisting.ask('api/recordings', { headers: { host } });
      expect(`${host} ${said.status}`).toBe(`${host} 403`);
      expect((await assisting.ask('', { headers: { host } })).status).toBe(403);
      expect(await assisting.stream({ host }).ended).toBe(403);
    }
  });

  test('this computer’s own name is as good as its address', async () => {
    const host = `${hostname().split('.')[0]}.local:${assisting.address.port}`;
    expect((await assisting.ask('api/recordings', { headers: { host } })).status).toBe(200);
  });

  test.each([
    ['another site', 'https://elsewhere.example'],
    ['the laptop’s own page', 'http://127.0.0.1'],
    ['another of this computer’s pages', 'https://127.0.0.3'],
    ['a sandboxed frame', 'null'],
  ])('nothing is changed, and no stream opened, by a page of %s', async (_what, origin) => {
    const asked = { method: 'POST', body: { kind: 'note', elapsedS: 0 }, headers: { origin } };
    const said = await assisting.ask(`api/recordings/${recordingId}/marks`, asked);
    expect(said.status).toBe(403);
    expect(await assisting.stream({ origin }).ended).toBe(403);
  });

  test('what changes something has to say of which page it is; so has a stream', async () => {
    const { secret } = await offeredCode(bridge, 'watch');
    const body = { code: secret, name: 'a' };
    const said = await new OtherScreen(bridge).ask('api/pair', {
      method: 'POST',
      body,
      headers: { origin: '' },
    });
    expect(said.status).toBe(403);
    const socket = new WebSocket(
      new URL('stream', assisting.address.href.replace('https', 'wss')),
      {
        rejectUnauthorized: false,
        headers: { cookie: assisting.cookie },
      },
    );
    const status = new Promise((resolve) => {
      socket.on('unexpected-response', (_asked, { statusCode }) => resolve(statusCode));
      socket.on('error', () => undefined);
    });
    expect(await status).toBe(403);
    socket.terminate();
  });

  test('nothing is spoken but HTTPS', async () => {
    const { hostname: host, port } = assisting.address;
    const heard = await new Promise<string>((resolve) => {
      let said = '';
      const socket = connect({ host, port: Number(port) }, () =>
        socket.write(`GET /api/recordings HTTP/1.1\r\nHost: ${host}:${port}\r\n\r\n`),
      );
      socket.on('data', (data) => (said += data.toString('latin1')));
      socket.on('error', () => undefined).on('close', () => resolve(said));
    });
    expect(heard).not.toContain('recordings');
    expect(heard).not.toContain('200');
  });

  test('a stranger’s cookies are no key', async () => {
    const stranger = new OtherScreen(bridge);
    for (const cookie of ['__Host-ebbline=', '__Host-ebbline=x', `x=${assisting.cookie}`, ';;=;']) {
      stranger.cookie = cookie;
      expect((await stranger.ask('api/recordings')).status).toBe(401);
    }
  });
});

describe('paths', () => {
  test.each([
    '/../package.json',
    '/..%2fpackage.json',
    '/%2e%2e/package.json',
    '/%2e%2e%2f%2e%2e%2fpackage.json',
    '/assets/../../vite.config.ts',
    '/assets/..%5c..%5cvite.config.ts',
    '/assets/%252e%252e/%252e%252e/vite.config.ts',
    '//etc/passwd',
    '/%00',
    '/index.html%00.js',
    '/.git/config',
    '/api/recordings/..%2f..%2fpackage.json',
    '/api/recordings/1/readings.csv/../../../../package.json',
    'http://elsewhere.example/package.json',
  ])('%s leads to nothing outside of the page', async (path) => {
    const answer = await answerToGet(path);
    expect(statusOf(answer)).toBeGreaterThanOrEqual(400);
    expect(statusOf(answer)).toBeLessThan(500);
    expect(answer).not.toMatch(/"dependencies"|defineConfig|root:/u);
  });
});

/** What pollutes a prototype where a body is merged without a look. */
const POLLUTING = [
  '{"__proto__":{"polluted":"yes"}}',
  '{"constructor":{"prototype":{"polluted":"yes"}}}',
  '{"fields":{"__proto__":{"polluted":"yes"}},"elapsedS":0}',
  '{"kind":"note","elapsedS":0,"text":"a","__proto__":{"polluted":"yes"}}',
] as const;

describe('bodies', () => {
  test.each(POLLUTING)('%s is refused, and changes no object of ours', async (body) => {
    for (const path of [
      `api/recordings/${recordingId}/marks`,
      `api/recordings/${recordingId}/sheet`,
      'api/prepared-sheets',
      'api/rehearsals',
      'api/sensor-labels',
      'api/typed-in',
      'api/pair',
      'api/sharing/codes',
      'api/imports?name=x.json',
    ]) {
      const answer = await post(path, body);
      expect(`${path} ${answer.status}`).toBe(`${path} 400`);
    }
    expect(Reflect.get({}, 'polluted')).toBeUndefined();
  });

  test('a query can’t pollute one either', async () => {
    const query =
      '__proto__[polluted]=yes&__proto__.polluted=yes&constructor.prototype.polluted=yes';
    await fetch(new URL(`api/jobs?${query}`, bridge.url));
    await fetch(new URL(`api/recordings/${recordingId}/readings.csv?${query}`, bridge.url));
    expect(Reflect.get({}, 'polluted')).toBeUndefined();
  });

  test('larger than anything that is asked for are refused, whoever sends them', async () => {
    const text = JSON.stringify({ kind: 'note', elapsedS: 0, text: 'x'.repeat(70_000) });
    const path = `api/recordings/${recordingId}/marks`;
    const here = await post(path, text);
    expect(here.status).toBe(400);
    expect(apiErrorSchema.parse(await here.json()).detail).toContain('too large');
    expect((await assisting.ask(path, { method: 'POST', body: text })).status).toBe(400);
  });

  test('a file is not even read where who sends it may not read one in', async () => {
    const said = await assisting.ask('api/imports?name=x.csv', {
      method: 'POST',
      headers: { 'content-type': 'text/csv' },
      body: 'x'.repeat(1_000_000),
    });
    expect(said.status).toBe(403);
  });

  test('of a kind that nobody asked for are refused', async () => {
    const path = `api/recordings/${recordingId}/marks`;
    for (const type of ['application/x-www-form-urlencoded', 'multipart/form-data', 'text/html']) {
      expect((await post(path, 'kind=note', { 'content-type': type })).status).toBe(400);
    }
  });

  test('a message of the stream that is too long ends that stream alone', async () => {
    const client = new StreamClient(bridge.url);
    await client.until(() => client.heard.length > 0);
    client.send(`{"type":"follow","recordingId":1,"afterIndex":0,"x":"${'x'.repeat(5000)}"}`);
    await client.until(() => client.closeCode !== null);
    expect(client.closeCode).toBe(1009);
    expect((await fetch(new URL('api/health', bridge.url))).status).toBe(200);
  });

  test('headers without end are refused', async () => {
    const answer = await answerToGet('/', `X: ${'x'.repeat(20_000)}\r\n`);
    expect(statusOf(answer)).toBe(431);
  });
});

describe('headers', () => {
  test('stand on every kind of answer', async () => {
    const marks = `api/recordings/${recordingId}/marks`;
    const here = async (path: string): Promise<[string, Headers]> => {
      const answer = await fetch(new URL(path, bridge.url));
      await answer.arrayBuffer();
      return [`${path} ${answer.status}`, answer.headers];
    };
    const there = async (path: string, screen: OtherScreen): Promise<[string, Headers]> => {
      const { status, headers } = await screen.ask(path);
      const plain = Object.entries(headers).flatMap(([name, value]) =>
        typeof value === 'string' ? [[name, value] satisfies [string, string]] : [],
      );
      return [`other screen: ${path} ${status}`, new Headers(plain)];
    };
    const refused = await post(marks, '{}');
    const foreign = await post(marks, '{}', { origin: 'https://elsewhere.example' });
    const answers: [string, Headers][] = [
      await here(''),
      await here('kept-files.json'),
      await here('manifest.webmanifest'),
      await here('nothing-here'),
      await here('api/recordings'),
      await here('api/nothing-here'),
      await here(`api/recordings/${recordingId}/readings.csv`),
      await here(`api/recordings/${recordingId}/report`),
      ['a body that is refused', refused.headers],
      ['a page from elsewhere', foreign.headers],
      await there('', assisting),
      await there('api/recordings', assisting),
      await there('api/recordings', new OtherScreen(bridge)),
      await there('api/backup', assisting),
    ];
    for (const [what, headers] of answers) {
      const policy = headers.get('content-security-policy') ?? '';
      expect(policy, what).toMatch(/^default-src '(self|none)'/u);
      expect(policy, what).toContain("frame-ancestors 'none'");
      expect(policy, what).toContain("base-uri 'none'");
      expect(policy, what).toContain("form-action 'none'");
      // No script may stand in a page, and none is made of text.
      expect(policy, what).not.toMatch(/script-src|unsafe-eval/u);
      expect(policy.includes('unsafe-inline'), what).toBe(what.includes('/report '));
      expect(headers.get('x-content-type-options'), what).toBe('nosniff');
      expect(headers.get('referrer-policy'), what).toBe('no-referrer');
      expect(headers.get('cross-origin-resource-policy'), what).toBe('same-origin');
      expect(headers.get('access-control-allow-origin'), what).toBeNull();
      expect(headers.get('server'), what).toBeNull();
      expect(headers.get('x-powered-by'), what).toBeNull();
      const isOfApi = !/^(other screen: )?( |kept|manifest|nothing)/u.test(what);
      if (isOfApi) expect(headers.get('cache-control'), what).toBe('no-store');
    }
  });

  test('never ask a browser to insist on a certificate that no authority vouches for', async () => {
    // It would make the warning one that can't be passed, for every program of this computer.
    expect((await assisting.ask('')).headers['strict-transport-security']).toBeUndefined();
  });

  test('the page has no script, style or handler within it', () => {
    const page = readFileSync(new URL('../../web/dist/index.html', import.meta.url), 'utf8');
    expect(page).not.toMatch(/<script(?![^>]*\bsrc=)|<style|\son\w+=|javascript:/iu);
    expect(page).not.toMatch(/(src|href)="(https?:)?\/\//u);
  });
});

/** What a spreadsheet takes for a formula, or skips before one. */
const FORMULAS = ['=1+1', '+1+1', '-1+1', '@SUM(1)', '\t=1+1', '\r=1+1', '＝1+1', '＠SUM(1)'];

const SENSOR = {
  id: 'a',
  manufacturer: null,
  model: null,
  serial: null,
  firmware: null,
  label: null,
  calibratedOn: null,
} as const;

describe('files for spreadsheets', () => {
  /** Cells that a spreadsheet would run: whatever begins so and is no number. */
  function runnable(csv: string): string[] {
    const cells = [...csvRows(csv)].flatMap(({ cells: row }) => row);
    return cells.filter(
      (cell) => /^[=+\-@＝＋－＠\t\r\n]/u.test(cell) && !/^-?\d+(\.\d+)?$/u.test(cell),
    );
  }

  test('have no cell that would be run, whatever was noted', async () => {
    for (const text of FORMULAS) {
      const mark = JSON.stringify({ kind: 'note', elapsedS: 0, text });
      expect((await post(`api/recordings/${recordingId}/marks`, mark)).status).toBe(201);
    }
    for (const variant of ['full', 'plain']) {
      const path = `api/recordings/${recordingId}/readings.csv?variant=${variant}`;
      const csv = await (await fetch(new URL(path, bridge.url))).text();
      expect(csv.split('\n').length).toBeGreaterThan(1);
      expect(runnable(csv)).toEqual([]);
      if (variant === 'full') expect(csv.split('1+1').length).toBeGreaterThan(6);
    }
  });

  test.each(FORMULAS)('nor one that a sensor calls itself: %j', (name) => {
    const recording = recordingSchema.parse({
      id: 1,
      origin: 'sensor',
      startedAtMs: 0,
      title: '',
      sensors: [{ ...SENSOR, name }],
      takenFrom: null,
      open: false,
    });
    const row = new FullCsvRows(recording, [], 0).reading({
      index: 1,
      channel: 0,
      boot: 1,
      sequence: 1,
      uptimeMs: 1,
      arrivedS: 0,
      elapsedS: 0,
      pressurePa: 4000,
      temperatureC: -12.5,
      condition: 'ok',
    });
    expect(runnable(row)).toEqual([]);
    const [{ cells } = { cells: [] }] = [...csvRows(row)];
    expect(cells[FULL_CSV_COLUMNS.indexOf('sensor_name')]).toBe(`'${name}`);
  });
});

test('a route that nobody has decided on keeps the bridge from starting', async () => {
  const server = Fastify();
  guard(server, () => null);
  expect(() => server.get('/api/new-and-forgotten', () => 1)).toThrow(
    'GET /api/new-and-forgotten is not in the table of roles',
  );
  await server.close();
});
