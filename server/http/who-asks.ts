/** Who asks, and whether they may: for requests and for the stream, before anything of either is read. */
import type { IncomingMessage } from 'node:http';
import { TLSSocket } from 'node:tls';
import { ProblemError } from '../../protocol/problems.ts';
import { mayDo, type Role } from '../../protocol/sharing.ts';
import { isFromOwnPage, isFromThisMachine } from './own-page.ts';
import { costOf, ROUTE_ROLES } from './route-roles.ts';
import { tokenIn } from './session-cookie.ts';
import type { SharedConnections } from './shared-connections.ts';
import type { PairedScreen, SharingAccess } from './sharing-access.ts';

/** Null: a screen on the local network that is not paired. */
export interface Asking {
  readonly role: Role | null;
  /** Null: the laptop itself. */
  readonly screen: PairedScreen | null;
}

const OWNER: Asking = { role: 'owner', screen: null };

/** What sharing has to say of who asks. */
export interface Shared {
  readonly access: SharingAccess;
  readonly connections: SharedConnections;
  /** Addresses and names under which this computer is met now. */
  hosts(): readonly string[];
}

/**
 * @param route as it stands in the table; null: there is none of that kind
 * @throws ProblemError `foreign_page`, `not_paired`, `not_allowed`, `too_many_requests`
 */
export function whoAsks(
  request: IncomingMessage,
  route: string | null,
  shared: Shared | null,
): Asking {
  const { headers, method = '', url = '', socket } = request;
  const asked = { headers, method, url };
  // Loopback speaks plain HTTP and nothing else, the way in from the local network HTTPS and nothing else.
  if (!(socket instanceof TLSSocket)) {
    if (!isFromThisMachine(asked)) throw new ProblemError('foreign_page', headers.host ?? '');
    return OWNER;
  }
  if (shared === null || !isFromOwnPage(asked, shared.hosts(), socket.localPort ?? 0)) {
    throw new ProblemError('foreign_page', headers.host ?? '');
  }
  const { access, connections } = shared;
  const screen = access.find(tokenIn(headers.cookie));
  const mayAsk =
    screen === null
      ? access.mayStrangerAsk(socket.remoteAddress ?? '')
      : access.mayAsk(screen.id, costOf(route ?? ''));
  if (!mayAsk) throw new ProblemError('too_many_requests');
  const least = route === null ? 'watch' : (ROUTE_ROLES[route] ?? 'owner');
  if (screen === null) {
    if (least !== 'anyone') throw new ProblemError('not_paired');
    return { role: null, screen };
  }
  if (least !== 'anyone' && !mayDo(screen.role, least)) throw new ProblemError('not_allowed');
  connections.hold(screen.id, socket);
  return { role: screen.role, screen };
}
