/** The API over sharing: the laptop shows a code and unpairs, another screen shows the code and is in. */
import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { ProblemError } from '../../protocol/problems.ts';
import {
  newPairingSchema,
  type Pairing,
  pairingSchema,
  type PairWish,
  pairWishSchema,
  type SharingState,
  sharingStateSchema,
  type ThisScreen,
  thisScreenSchema,
} from '../../protocol/sharing.ts';
import { described, json } from './described.ts';
import { noSessionCookie, sessionCookie } from './session-cookie.ts';
import type { SharedDoor } from './shared-door.ts';

const STATE = {
  summary:
    'Whether the page is shared on the local network, under which addresses, and with which screens.',
  answer: { status: 200, content: json(sharingStateSchema) },
} as const;
const OFFER = {
  summary: 'A fresh code with which one screen can be paired, once, within five minutes.',
  more: 'The code before it is good for nothing any more.',
  body: json(newPairingSchema),
  answer: { status: 201, content: json(pairingSchema) },
  problems: ['sharing_off'],
} as const;
const UNPAIR = {
  summary: 'Shuts a paired screen out; its connections are closed at once.',
  answer: { status: 204 },
  problems: ['not_found', 'sharing_off'],
} as const;
const PAIR = {
  summary:
    'Pairs the screen that asks, by the code that the laptop shows. It is known by a cookie from then on.',
  body: json(pairWishSchema),
  answer: { status: 201, content: json(thisScreenSchema) },
  problems: ['wrong_code', 'too_many_tries', 'too_many_screens', 'no_need_to_pair'],
} as const;
const THIS_SCREEN = {
  summary: 'What the screen that asks may do: watch, assist, or all (the laptop itself).',
  answer: { status: 200, content: json(thisScreenSchema) },
} as const;
const LEAVE = {
  summary: 'Unpairs the screen that asks.',
  answer: { status: 204 },
  problems: ['no_need_to_pair'],
} as const;

const parameters = z.object({ screen: z.coerce.number().int().min(1) });

/** @param door none: the page is not shared */
export function serveSharing(server: FastifyInstance, door: () => SharedDoor | null): void {
  const openDoor = (): SharedDoor => {
    const there = door();
    if (there === null) throw new ProblemError('sharing_off');
    return there;
  };

  server.get('/api/sharing', described(STATE), (): SharingState => stateOf(door()));

  server.post('/api/sharing/codes', described(OFFER), async (request, reply) => {
    const { role } = newPairingSchema.parse(request.body);
    const offered: Pairing = openDoor().access.offer(role);
    return reply.status(201).send(offered);
  });

  server.post('/api/sharing/screens/:screen/unpair', described(UNPAIR), async (request, reply) => {
    const { screen } = parameters.parse(request.params);
    const { access, connections } = openDoor();
    access.unpair(screen);
    connections.end(screen);
    return reply.status(204).send();
  });

  server.get('/api/this-screen', described(THIS_SCREEN), (request): ThisScreen => {
    const { role, screen } = request.asking ?? {};
    if (role === null || role === undefined) throw new ProblemError('not_paired');
    return { role, name: screen?.name ?? '' };
  });

  server.post('/api/pair', described(PAIR), async (request, reply) => {
    const wish = pairWishSchema.parse(request.body);
    const before = request.asking?.screen ?? null;
    if (request.asking?.role === 'owner') throw new ProblemError('no_need_to_pair');
    const shared = openDoor();
    const { access, connections } = shared;
    const { screen, token } = pairedOrSaid(shared, request.ip, wish);
    shared.say(`Let in, from ${request.ip}: ${screen.name} (${screen.role}).`);
    // Paired anew, in another role say: what it was before it is no more.
    if (before !== null) {
      access.unpair(before.id);
      connections.end(before.id, request.raw.socket);
    }
    const paired: ThisScreen = { role: screen.role, name: screen.name };
    return reply.status(201).header('set-cookie', sessionCookie(token)).send(paired);
  });

  server.post('/api/this-screen/leave', described(LEAVE), async (request, reply) => {
    const screen = request.asking?.screen ?? null;
    if (screen === null) throw new ProblemError('no_need_to_pair');
    const { access, connections } = openDoor();
    access.unpair(screen.id);
    connections.end(screen.id, request.raw.socket);
    return reply.status(204).header('set-cookie', noSessionCookie()).send();
  });
}

function pairedOrSaid(door: SharedDoor, address: string, wish: PairWish) {
  try {
    return door.access.pair(address, wish);
  } catch (error) {
    if (error instanceof ProblemError) door.say(`Not let in, from ${address}: ${error.message}`);
    throw error;
  }
}

function stateOf(door: SharedDoor | null): SharingState {
  if (door === null) return { on: false };
  const connected = new Set(door.connections.connected());
  return {
    on: true,
    addresses: door.addresses(),
    fingerprint: door.fingerprint(),
    screens: door.access.screens().map(({ id, name, role, pairedAtMs, lastSeenAtMs }) => ({
      id,
      name,
      role,
      pairedAtMs,
      lastSeenAtMs,
      connected: connected.has(id),
    })),
  };
}
