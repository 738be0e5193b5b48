/** Where a shared bridge is met: local networks alone, also after the laptop has changed its network. */
import { mkdtempSync, rmSync } from 'node:fs';
import type { NetworkInterfaceInfo } from 'node:os';
import { request } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Fastify from 'fastify';
import { expect, test } from 'vitest';
import { SharedDoor } from '../../../../server/http/shared-door.ts';
import { localAddresses, ownNames } from '../../../../server/sharing/local-addresses.ts';
import { Sharing } from '../../../../server/sharing/sharing.ts';

function found(address: string, internal = false): NetworkInterfaceInfo {
  const rest = { netmask: '', mac: '', cidr: null, internal } as const;
  return address.includes(':')
    ? { address, family: 'IPv6', scopeid: 0, ...rest }
    : { address, family: 'IPv4', ...rest };
}

test('only addresses of local networks are shared', () => {
  const addresses = localAddresses({
    lo: [found('127.0.0.1', true), found('::1', true)],
    wireless: [found('192.168.1.20'), found('fe80::1')],
    cable: [found('10.0.0.3'), found('172.16.0.1'), found('172.31.0.1'), found('169.254.3.4')],
    // What the internet reaches, and a tunnel.
    other: [found('203.0.113.7'), found('172.32.0.1'), found('100.64.0.9'), found('192.169.0.1')],
  });
  expect(addresses).toEqual([
    '10.0.0.3',
    '169.254.3.4',
    '172.16.0.1',
    '172.31.0.1',
    '192.168.1.20',
  ]);
});

test.each([
  ['Van-Laptop.fritz.box', ['van-laptop', 'van-laptop.local']],
  ['a b', []],
  ['', []],
  ['x"y', []],
])('a computer called %j is met as %j', (name, names) => {
  expect(ownNames(name)).toEqual(names);
});

test('a laptop in another network is met there and no longer where it was', async () => {
  const dataFolder = mkdtempSync(join(tmpdir(), 'door-'));
  let addresses = ['127.0.0.11'];
  const access = new Sharing({ dataFolder, clock: Date.now, addresses: () => addresses });
  const server = Fastify();
  server.get('/', () => 'here');
  const door = new SharedDoor({ access, server, upgrade: () => undefined, log: () => undefined });
  await door.open(0);
  const { port } = new URL(door.addresses()[0] ?? '');
  const isMetAt = (address: string) =>
    new Promise<boolean>((resolve) => {
      request({ host: address, port, agent: false, rejectUnauthorized: false }, (answer) => {
        answer.resume();
        resolve(true);
      })
        .on('error', () => resolve(false))
        .end();
    });
  expect([await isMetAt('127.0.0.11'), await isMetAt('127.0.0.12')]).toEqual([true, false]);
  const earlier = door.fingerprint();

  addresses = ['127.0.0.12'];
  await door.look();
  expect(door.addresses()).toEqual([`https://127.0.0.12:${port}/`]);
  expect(door.hosts()).not.toContain('127.0.0.11');
  expect(door.fingerprint()).not.toBe(earlier);
  expect([await isMetAt('127.0.0.11'), await isMetAt('127.0.0.12')]).toEqual([false, true]);

  addresses = [];
  await door.look();
  expect([door.addresses(), door.fingerprint()]).toEqual([[], '']);
  expect(await isMetAt('127.0.0.12')).toBe(false);
  await door.close();
  await server.close();
  rmSync(dataFolder, { recursive: true, force: true });
});
