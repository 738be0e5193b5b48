/** Screens that are let in: over real HTTPS, by a code, in a role, until they are shut out. */
import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { apiErrorSchema, openApiSchema } from '../../protocol/api.ts';
import { recordingSchema } from '../../protocol/recording.ts';
import { mayDo, sharingStateSchema, thisScreenSchema } from '../../protocol/sharing.ts';
import { ROUTE_ROLES, STREAM_ROUTE } from '../../server/http/route-roles.ts';
import { cookieOf, offeredCode, OtherScreen, pairedScreen } from '../support/other-screen.ts';
import { runBridge, type RunningBridge } from '../support/running-bridge.ts';

const SHARED = ['127.0.0.2'];
const MINUTE_MS = 60_000;
const DAY_MS = 24 * 60 * MINUTE_MS;

let nowMs = Date.now();
let bridge: RunningBridge;
let recordingId = 0;

beforeAll(async () => {
  bridge = await runBridge({ wallClock: () => nowMs, shareAddresses: SHARED });
  const answer = await postOnLaptop('api/typed-in', { pressurePa: 4000, temperatureC: null });
  recordingId = recordingSchema.parse(await answer.json()).id;
});
afterAll(() => bridge.remove());

function postOnLaptop(path: string, body: unknown): Promise<Response> {
  return fetch(new URL(path, bridge.url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
}

async function sharingNow() {
  const state = await (await fetch(new URL('api/sharing', bridge.url))).json();
  const parsed = sharingStateSchema.parse(state);
  if (!parsed.on) throw new Error('not shared');
  return parsed;
}

async function shutOutAll(): Promise<void> {
  for (const { id } of (await sharingNow()).screens) {
    await postOnLaptop(`api/sharing/screens/${id}/unpair`, {});
  }
}

const codeOf = (text: string): string => apiErrorSchema.parse(JSON.parse(text)).code;

describe('without --share', () => {
  test('nobody is let in, and that is said', async () => {
    const alone = await runBridge();
    expect(alone.sharedAt().addresses).toEqual([]);
    const state = await (await fetch(new URL('api/sharing', alone.url))).json();
    expect(state).toEqual({ on: false });
    const answer = await fetch(new URL('api/sharing/codes', alone.url), {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: '{"role":"watch"}',
    });
    expect([answer.status, codeOf(await answer.text())]).toEqual([409, 'sharing_off']);
    expect(existsSync(join(alone.dataFolder, 'sharing-certificate.json'))).toBe(false);
    await alone.remove();
  });
});

describe('a code', () => {
  test('lets one screen in, in its role, by a cookie that nothing else can use', async () => {
    const screen = new OtherScreen(bridge);
    expect((await screen.ask('api/this-screen')).status).toBe(401);
    const { secret } = await offeredCode(bridge, 'assist');
    // 128 bits, six to a sign.
    expect(secret.length * 6).toBeGreaterThanOrEqual(128);
    const paired = await screen.post('api/pair', { code: secret, name: 'Phone' });
    expect(paired.status).toBe(201);
    expect([paired.headers['set-cookie'] ?? ''].flat()[0]).toMatch(
      /^__Host-ebbline=[\w-]{43}; Max-Age=\d+; Path=\/; Secure; HttpOnly; SameSite=Strict$/u,
    );
    screen.cookie = cookieOf(paired);
    const said = await screen.ask('api/this-screen');
    expect(thisScreenSchema.parse(JSON.parse(said.text))).toEqual({
      role: 'assist',
      name: 'Phone',
    });
    const { screens, fingerprint } = await sharingNow();
    expect(screens).toMatchObject([{ name: 'Phone', role: 'assist', connected: false }]);
    expect(fingerprint).toMatch(/^([0-9A-F]{2}:){31}[0-9A-F]{2}$/u);
    expect(bridge.sharedAt().fingerprint).toBe(fingerprint);
    await shutOutAll();
  });

  test('is kept nowhere; of what the screen shows there is a hash, in a file of the owner’s alone', async () => {
    const screen = await pairedScreen(bridge, 'watch');
    const token = screen.cookie.split('=')[1] ?? '';
    expect(token).toHaveLength(43);
    for (const name of ['paired-screens.json', 'sharing-certificate.json']) {
      const path = join(bridge.dataFolder, name);
      expect(statSync(path).mode & 0o777).toBe(0o600);
      expect(readFileSync(path, 'utf8')).not.toContain(token);
    }
    await shutOutAll();
  });

  test('is good once', async () => {
    const { secret, typed } = await offeredCode(bridge, 'watch');
    const screen = new OtherScreen(bridge);
    expect((await screen.post('api/pair', { code: secret, name: 'a' })).status).toBe(201);
    for (const code of [secret, typed]) {
      const again = await screen.post('api/pair', { code, name: 'b' }, '127.0.0.21');
      expect([again.status, codeOf(again.text)]).toEqual([403, 'wrong_code']);
    }
    await shutOutAll();
  });

  test('can be typed in any case, with gaps', async () => {
    const { typed } = await offeredCode(bridge, 'watch');
    expect(typed).toMatch(/^[2-9A-HJ-NP-Z]{8}$/u);
    const code = `${typed.slice(0, 4)} - ${typed.slice(4)}`.toLowerCase();
    const screen = new OtherScreen(bridge);
    expect((await screen.post('api/pair', { code, name: 'a' })).status).toBe(201);
    await shutOutAll();
  });

  test('is over after five minutes, and when the next one is shown', async () => {
    const screen = new OtherScreen(bridge);
    const earlier = await offeredCode(bridge, 'watch');
    const { secret } = await offeredCode(bridge, 'watch');
    const from = '127.0.0.22';
    const old = await screen.post('api/pair', { code: earlier.secret, name: 'a' }, from);
    expect(codeOf(old.text)).toBe('wrong_code');
    nowMs += 5 * MINUTE_MS;
    const late = await screen.post('api/pair', { code: secret, name: 'a' }, from);
    expect(codeOf(late.text)).toBe('wrong_code');
  });

  test('can’t be guessed: five tries of an address, thirty of all, and none of it keeps out the one who scans', async () => {
    const { secret, typed } = await offeredCode(bridge, 'watch');
    const screen = new OtherScreen(bridge);
    const tryFrom = async (from: string, code: string) => {
      const said = await screen.post('api/pair', { code, name: 'a' }, from);
      return said.status === 201 ? 'in' : codeOf(said.text);
    };
    const wrong = typed.startsWith('2') ? '33333333' : '22222222';
    for (let tries = 0; tries < 5; tries += 1) {
      expect(await tryFrom('127.0.0.31', wrong)).toBe('wrong_code');
    }
    expect(await tryFrom('127.0.0.31', typed)).toBe('too_many_tries');
    expect(await tryFrom('127.0.0.31', secret)).toBe('too_many_tries');
    for (let tries = 0; tries < 25; tries += 1) {
      await tryFrom(`127.0.0.${40 + Math.floor(tries / 5)}`, wrong);
    }
    expect(await tryFrom('127.0.0.60', typed)).toBe('too_many_tries');
    expect(await tryFrom('127.0.0.60', secret)).toBe('in');
    await shutOutAll();
    nowMs += 10 * MINUTE_MS;
  });

  test('is for no more screens than twenty', async () => {
    for (let count = 0; count < 20; count += 1) await pairedScreen(bridge, 'watch');
    const { secret } = await offeredCode(bridge, 'watch');
    const said = await new OtherScreen(bridge).post('api/pair', { code: secret, name: 'a' });
    expect([said.status, codeOf(said.text)]).toEqual([409, 'too_many_screens']);
    await shutOutAll();
  });

  test.each([
    ['no name', ''],
    ['a name that turns the line round', 'phone\u202Eenohp'],
    ['a name of two lines', 'a\nb'],
    ['a name without end', 'x'.repeat(61)],
  ])('lets nobody in with %s', async (_what, name) => {
    const { secret } = await offeredCode(bridge, 'watch');
    const said = await new OtherScreen(bridge).post('api/pair', { code: secret, name });
    expect([said.status, codeOf(said.text)]).toEqual([400, 'bad_request']);
  });
});

describe('what a screen may do', () => {
  interface Route {
    readonly key: string;
    readonly method: string;
    readonly path: string;
  }

  /** Every address of the API, as the bridge itself lists them. */
  async function allRoutes(): Promise<Route[]> {
    const answer = await fetch(new URL('api/openapi.json', bridge.url));
    const { paths } = openApiSchema.parse(await answer.json());
    return Object.entries(paths).flatMap(([path, methods]) =>
      Object.keys(methods).map((name) => ({
        key: `${name.toUpperCase()} ${path.replaceAll(/\{(\w+)\}/gu, ':$1')}`,
        method: name.toUpperCase(),
        // Of nothing that is there: who may ask is looked at before anything else.
        path: path.replaceAll(/\{\w+\}/gu, '999').slice(1),
      })),
    );
  }

  test('stands in one table for each address that there is, and for no other', async () => {
    const there = (await allRoutes()).map(({ key }) => key);
    const listed = Object.keys(ROUTE_ROLES).filter((key) => key !== 'GET /*');
    expect([...there, STREAM_ROUTE].sort()).toEqual(listed.sort());
  });

  test('is little: what begins, ends, deletes, signs, takes away or brings in is the laptop’s alone', () => {
    const ofOwner = Object.keys(ROUTE_ROLES).filter((key) => ROUTE_ROLES[key] === 'owner');
    for (const part of [
      'GET /api/backup',
      'POST /api/restore',
      'POST /api/imports',
      'sign-offs',
      'archive',
      '/delete',
      '/discard',
      'POST /api/rehearsals',
      'POST /api/typed-in/end',
      'POST /api/sensor-labels',
      'GET /api/sharing',
      'POST /api/sharing/codes',
      'unpair',
    ]) {
      expect(
        ofOwner.filter((key) => key.includes(part)),
        part,
      ).not.toEqual([]);
    }
    const changing = Object.keys(ROUTE_ROLES).filter((key) => key.startsWith('POST'));
    const ofWatching = changing.filter((key) => ROUTE_ROLES[key] === 'watch');
    expect(ofWatching).toEqual(['POST /api/this-screen/leave']);
  });

  test('is asked at each of them: of a stranger, of who watches, of who assists', async () => {
    const stranger = new OtherScreen(bridge);
    const watching = await pairedScreen(bridge, 'watch');
    const assisting = await pairedScreen(bridge, 'assist');
    // It would shut out the very screen that asks.
    const leave = 'POST /api/this-screen/leave';
    for (const { key, method, path } of (await allRoutes()).filter((one) => one.key !== leave)) {
      const least = ROUTE_ROLES[key] ?? 'owner';
      const ask = { method, body: { nonsense: true } };
      const refused = async (screen: OtherScreen) => {
        const { status, text } = await screen.ask(path, ask);
        return status === 401 || status === 403 ? `${key} ${codeOf(text)}` : null;
      };
      const isOpen = least === 'anyone';
      const expected = (may: boolean, code: string) => (isOpen || may ? null : `${key} ${code}`);
      expect(await refused(stranger)).toBe(expected(false, 'not_paired'));
      expect(await refused(watching)).toBe(
        expected(!isOpen && mayDo('watch', least), 'not_allowed'),
      );
      expect(await refused(assisting)).toBe(
        expected(!isOpen && mayDo('assist', least), 'not_allowed'),
      );
    }
    expect(await stranger.stream().ended).toBe(401);
    const { opened, socket } = watching.stream();
    expect(await opened).toBe(true);
    socket.terminate();
    await shutOutAll();
  });

  test('who watches reads and writes nothing; who assists marks, enters and types in', async () => {
    const watching = await pairedScreen(bridge, 'watch');
    const assisting = await pairedScreen(bridge, 'assist');
    const facts: readonly (readonly [string, unknown])[] = [
      [`api/recordings/${recordingId}/marks`, { kind: 'note', elapsedS: 0, text: 'by phone' }],
      [`api/recordings/${recordingId}/sheet`, { elapsedS: 0, fields: { site: 'Mill Lane' } }],
      ['api/typed-in', { pressurePa: 3000, temperatureC: null }],
    ];
    nowMs += 1000;
    for (const [path, body] of facts) {
      expect((await watching.post(path, body)).status).toBe(403);
      expect((await assisting.post(path, body)).status).toBe(201);
    }
    const detail = await watching.ask(`api/recordings/${recordingId}`);
    expect(detail.text).toContain('by phone');
    expect(detail.text.split('by phone')).toHaveLength(2);
    await shutOutAll();
  });

  test('who assists works the rig of a rehearsal, and neither ends nor hurries it', async () => {
    await postOnLaptop('api/rehearsals', { name: 'quarry-road-bakery', helper: false });
    const assisting = await pairedScreen(bridge, 'assist');
    const steer = async (body: unknown) =>
      (await assisting.post('api/rehearsals/current', body)).status;
    for (const wish of [{ stop: true }, { rate: 20 }, { paused: true }, { jump: true }]) {
      expect(await steer(wish)).toBe(403);
    }
    expect(await steer({ action: 'pump_on' })).toBe(204);
    expect((await postOnLaptop('api/rehearsals/current', { stop: true })).status).toBe(204);
    await shutOutAll();
  });

  test('a screen that is paired anew has its new role alone', async () => {
    const screen = await pairedScreen(bridge, 'assist');
    const before = screen.cookie;
    const { secret } = await offeredCode(bridge, 'watch');
    screen.cookie = cookieOf(await screen.post('api/pair', { code: secret, name: 'again' }));
    expect((await sharingNow()).screens).toMatchObject([{ name: 'again', role: 'watch' }]);
    screen.cookie = before;
    expect((await screen.ask('api/this-screen')).status).toBe(401);
    await shutOutAll();
  });

  test('the laptop itself has nothing to be paired for', async () => {
    const { secret } = await offeredCode(bridge, 'watch');
    const answer = await postOnLaptop('api/pair', { code: secret, name: 'a' });
    expect(codeOf(await answer.text())).toBe('no_need_to_pair');
  });
});

describe('a screen that is shut out', () => {
  test('loses its connections at once, and gets nothing any more', async () => {
    const screen = await pairedScreen(bridge, 'watch', 'phone');
    const other = await pairedScreen(bridge, 'watch', 'other');
    const { opened, ended } = screen.stream();
    const others = other.stream();
    expect([await opened, await others.opened]).toEqual([true, true]);
    const [{ id, connected } = { id: 0, connected: false }] = (await sharingNow()).screens;
    expect(connected).toBe(true);
    expect((await postOnLaptop(`api/sharing/screens/${id}/unpair`, {})).status).toBe(204);
    expect(await ended).toBe(1006);
    expect((await screen.ask('api/recordings')).status).toBe(401);
    expect(await screen.stream().ended).toBe(401);
    expect((await other.ask('api/recordings')).status).toBe(200);
    expect(others.socket.readyState).toBe(others.socket.OPEN);
    others.socket.terminate();
    await shutOutAll();
  });

  test('may go by itself', async () => {
    const screen = await pairedScreen(bridge, 'watch');
    const left = await screen.post('api/this-screen/leave', {});
    expect(left.status).toBe(204);
    expect(String(left.headers['set-cookie'])).toContain('Max-Age=0');
    expect((await screen.ask('api/this-screen')).status).toBe(401);
    expect((await sharingNow()).screens).toEqual([]);
  });

  test('is so too after thirty days unused, and after half a year of use', async () => {
    // A bridge of its own: no certificate is good at all of these times.
    let laterMs = Date.now();
    const lasting = await runBridge({ wallClock: () => laterMs, shareAddresses: SHARED });
    const screen = await pairedScreen(lasting, 'watch');
    const used = await pairedScreen(lasting, 'watch');
    const statusOf = async (one: OtherScreen) => (await one.ask('api/this-screen')).status;
    laterMs += 29 * DAY_MS;
    expect([await statusOf(screen), await statusOf(used)]).toEqual([200, 200]);
    for (let days = 29; days < 179; days += 25) {
      laterMs += 25 * DAY_MS;
      expect(await statusOf(used)).toBe(200);
    }
    expect(await statusOf(screen)).toBe(401);
    laterMs += 2 * DAY_MS;
    expect(await statusOf(used)).toBe(401);
    await lasting.remove();
  });
});

describe('too much at once', () => {
  test('is refused to that screen alone, with what to do', async () => {
    const screen = await pairedScreen(bridge, 'watch');
    const other = await pairedScreen(bridge, 'watch');
    let said = await screen.ask('api/recordings/999/verified');
    for (let count = 0; count < 70 && said.status !== 429; count += 1) {
      said = await screen.ask('api/recordings/999/verified');
    }
    expect([said.status, codeOf(said.text), said.headers['retry-after']]).toEqual([
      429,
      'too_many_requests',
      '60',
    ]);
    expect((await other.ask('api/recordings')).status).toBe(200);
    nowMs += MINUTE_MS;
    expect((await screen.ask('api/recordings')).status).toBe(200);
    await shutOutAll();
  });

  test('streams: twelve of a screen', async () => {
    const screen = await pairedScreen(bridge, 'watch');
    const streams = Array.from({ length: 12 }, () => screen.stream());
    expect(await Promise.all(streams.map(({ opened }) => opened))).not.toContain(false);
    expect(await screen.stream().ended).toBe(429);
    streams[0]?.socket.terminate();
    await streams[0]?.ended;
    await expect.poll(() => screen.stream().opened).toBe(true);
    await shutOutAll();
  });

  test('connections that say nothing: forty of an address', async () => {
    const { hostname, port } = new OtherScreen(bridge).address;
    const silent = Array.from({ length: 41 }, () =>
      connect({ host: hostname, port: Number(port), localAddress: '127.0.0.70' }),
    );
    const closed = Promise.all(
      silent.map(
        (socket) =>
          new Promise<void>((resolve) => {
            socket.on('error', () => undefined).on('close', () => resolve());
          }),
      ),
    );
    await expect.poll(() => silent.filter(({ destroyed }) => destroyed).length).toBe(1);
    const screen = await pairedScreen(bridge, 'watch');
    expect((await screen.ask('api/recordings')).status).toBe(200);
    for (const socket of silent) socket.destroy();
    await closed;
    await shutOutAll();
  });
});

test('who is let in, and the certificate, outlast the bridge; a book that can’t be read lets nobody in', async () => {
  const first = await runBridge({ shareAddresses: SHARED });
  const { dataFolder } = first;
  const { cookie } = await pairedScreen(first, 'watch');
  const { fingerprint } = first.sharedAt();
  await first.stop();
  const second = await runBridge({ dataFolder, shareAddresses: SHARED });
  expect(second.sharedAt().fingerprint).toBe(fingerprint);
  const screen = new OtherScreen(second);
  screen.cookie = cookie;
  expect((await screen.ask('api/this-screen')).status).toBe(200);
  await second.stop();
  writeFileSync(join(dataFolder, 'paired-screens.json'), '{"screens":');
  const third = await runBridge({ dataFolder, shareAddresses: SHARED });
  const again = new OtherScreen(third);
  again.cookie = cookie;
  expect((await again.ask('api/this-screen')).status).toBe(401);
  await third.remove();
});
