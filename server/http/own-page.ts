/**
 * Whether a request can come from a page of this bridge. A hostile page in the same browser sends its own Origin, or a
 * Host of its own that resolves to one of our addresses (DNS rebinding); a form or a picture in it sends neither, but
 * the browser says whose request it is (Fetch Metadata).
 */
import type { IncomingHttpHeaders } from 'node:http';

const LOOPBACK_HOSTS = new Set(['127.0.0.1', 'localhost', '[::1]']);
const CHANGES_NOTHING = new Set(['GET', 'HEAD']);

interface Asked {
  readonly headers: IncomingHttpHeaders;
  readonly method: string;
  /** Path and query. */
  readonly url: string;
}

/** On loopback, where other programs may ask as well: they send no Origin. */
export function isFromThisMachine({ headers, url }: Asked): boolean {
  const { host, origin } = headers;
  if (host === undefined || !LOOPBACK_HOSTS.has(hostname(`http://${host}`))) return false;
  return (origin === undefined || origin === `http://${host}`) && !isOfAnotherSite(headers, url);
}

/**
 * On the local network, where a browser alone has a reason to ask.
 * @param hosts addresses and names of this computer
 */
export function isFromOwnPage(asked: Asked, hosts: readonly string[], port: number): boolean {
  const { host = '', origin, upgrade } = asked.headers;
  const known = hosts.flatMap((one) => [`${one}:${port}`, ...(port === 443 ? [one] : [])]);
  if (!known.includes(host.toLowerCase())) return false;
  if (isOfAnotherSite(asked.headers, asked.url)) return false;
  const isTold = CHANGES_NOTHING.has(asked.method) && upgrade === undefined;
  return origin === undefined ? isTold : origin === `https://${host.toLowerCase()}`;
}

/** The page itself may be opened by a link from anywhere; what it asks for may not. */
function isOfAnotherSite(headers: IncomingHttpHeaders, url: string): boolean {
  const site = headers['sec-fetch-site'];
  const isPage = !url.startsWith('/api/') && url !== '/stream';
  return !isPage && site !== undefined && site !== 'same-origin' && site !== 'none';
}

function hostname(url: string): string {
  return URL.canParse(url) ? new URL(url).hostname : '';
}
