/** Stands before every request: who asks is known to whoever answers, and every answer has the same headers. */
import type { FastifyInstance } from 'fastify';
import { ROUTE_ROLES, routeKey } from './route-roles.ts';
import { type Asking, type Shared, whoAsks } from './who-asks.ts';

declare module 'fastify' {
  interface FastifyRequest {
    /** Null until it is known. */
    asking: Asking | null;
  }
}

/** Nothing from outside, nothing inline: the page carries all that it needs. */
const CONTENT_SECURITY_POLICY = [
  "default-src 'self'",
  "style-src 'self'",
  "img-src 'self' data:",
  "object-src 'none'",
  "frame-ancestors 'none'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');
/** A report is a file that carries its own style, to be kept and opened anywhere; nothing in it runs. */
const POLICY_OF_REPORTS =
  "default-src 'none'; style-src 'unsafe-inline'; img-src 'self' data:; frame-ancestors 'none'; base-uri 'none'; form-action 'none'";
const REPORT_ROUTE = '/api/recordings/:id/report';

const HEADERS = {
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-resource-policy': 'same-origin',
  'cross-origin-opener-policy': 'same-origin',
  'permissions-policy': 'camera=(), microphone=(), geolocation=(), usb=(), payment=()',
} as const;
/** By status. */
const RETRY_AFTER_S: Readonly<Record<number, number>> = { 429: 60, 503: 15 };

export function guard(server: FastifyInstance, shared: () => Shared | null): void {
  server.addHook('onRoute', ({ method, url }) => {
    for (const key of [method].flat().map((one) => routeKey(one, url))) {
      if (!Object.hasOwn(ROUTE_ROLES, key)) throw new Error(`${key} is not in the table of roles`);
    }
  });
  server.decorateRequest('asking', null);
  server.addHook('onRequest', (request, _reply, done) => {
    const { url } = request.routeOptions;
    const route = url === undefined ? null : routeKey(request.method, url);
    try {
      request.asking = whoAsks(request.raw, route, shared());
      done();
    } catch (error) {
      done(error instanceof Error ? error : new Error(String(error)));
    }
  });
  server.addHook('onSend', async (request, reply) => {
    const isReport = request.routeOptions.url === REPORT_ROUTE;
    reply.header('content-security-policy', isReport ? POLICY_OF_REPORTS : CONTENT_SECURITY_POLICY);
    reply.headers(HEADERS);
    // What is said of a job stays in no store of the browser's.
    if (request.url.startsWith('/api/')) reply.header('cache-control', 'no-store');
    const retryAfterS = RETRY_AFTER_S[reply.statusCode];
    if (retryAfterS !== undefined) reply.header('retry-after', retryAfterS);
  });
}
