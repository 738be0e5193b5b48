/**
 * What each address of the bridge asks of a screen on the local network. What is not listed is for nobody there, and a
 * route that is not listed keeps the bridge from starting: whoever adds one decides. The laptop itself may do all.
 */
import type { Role } from '../../protocol/sharing.ts';

export type LeastRole = Role | 'anyone';

export const STREAM_ROUTE = 'GET /stream';

export const ROUTE_ROLES: Readonly<Record<string, LeastRole>> = {
  // The page's own files, which have nothing of any job in them; and the way in.
  'GET /*': 'anyone',
  'POST /api/pair': 'anyone',

  [STREAM_ROUTE]: 'watch',
  'GET /api/this-screen': 'watch',
  'POST /api/this-screen/leave': 'watch',
  'GET /api/openapi.json': 'watch',
  'GET /api/recordings': 'watch',
  'GET /api/recordings/:id': 'watch',
  'GET /api/recordings/:id/readings.csv': 'watch',
  'GET /api/recordings/:id/recording.json': 'watch',
  'GET /api/recordings/:id/verified': 'watch',
  'GET /api/recordings/:id/report': 'watch',
  'GET /api/recordings/:id/report.pdf': 'watch',
  'GET /api/schemas/recording.json': 'watch',
  'GET /api/jobs': 'watch',
  'GET /api/recordings/:id/jobs/:beginMark': 'watch',
  'GET /api/recordings/:id/jobs/:beginMark/curves': 'watch',
  'GET /api/rehearsals': 'watch',
  'GET /api/rehearsals/results': 'watch',
  'GET /api/sensor-labels': 'watch',
  'GET /api/prepared-sheets': 'watch',

  // Facts of the job that is worked on; each of them can be taken back or entered anew.
  'POST /api/recordings/:id/marks': 'assist',
  'POST /api/recordings/:id/marks/:markId/take-back': 'assist',
  'POST /api/recordings/:id/sheet': 'assist',
  'POST /api/recordings/:id/seen-alerts': 'assist',
  'POST /api/typed-in': 'assist',
  'POST /api/typed-in/corrections': 'assist',
  'POST /api/prepared-sheets': 'assist',
  'POST /api/prepared-sheets/:prepared/use': 'assist',
  // What is done to the simulated rig, which marks it itself; the rest of it is the owner's (rehearsals.ts).
  'POST /api/rehearsals/current': 'assist',

  // What begins and ends sources, deletes, signs, takes the record away or brings another one in.
  'GET /api/health': 'owner',
  'GET /api/backup': 'owner',
  'POST /api/restore': 'owner',
  'POST /api/imports': 'owner',
  'POST /api/typed-in/end': 'owner',
  'POST /api/rehearsals': 'owner',
  'POST /api/rehearsals/call': 'owner',
  'POST /api/rehearsals/reveal': 'owner',
  'POST /api/sensor-labels': 'owner',
  'POST /api/sensor-calibrations': 'owner',
  'POST /api/prepared-sheets/:prepared/discard': 'owner',
  'POST /api/recordings/:id/sign-offs': 'owner',
  'POST /api/recordings/:id/jobs/:beginMark/archive': 'owner',
  'POST /api/recordings/:id/jobs/:beginMark/delete': 'owner',
  'GET /api/sharing': 'owner',
  'POST /api/sharing/codes': 'owner',
  'POST /api/sharing/screens/:screen/unpair': 'owner',
};

/** These cost the bridge as much as many others, and count as so many. */
const COSTLY_ROUTES = new Set([
  'GET /api/recordings/:id/readings.csv',
  'GET /api/recordings/:id/recording.json',
  'GET /api/recordings/:id/verified',
  'GET /api/recordings/:id/report',
  'GET /api/recordings/:id/report.pdf',
  'GET /api/recordings/:id/jobs/:beginMark/curves',
]);
const COST = 20;

export function costOf(route: string): number {
  return COSTLY_ROUTES.has(route) ? COST : 1;
}

/** What answers a HEAD is what answers a GET. */
export function routeKey(method: string, url: string): string {
  return `${method === 'HEAD' ? 'GET' : method} ${url}`;
}
