/**
 * Only pages of this bridge, on this machine, may talk to it. Binding to loopback keeps other
 * machines out; these checks keep out a hostile page in the same browser, whose requests carry its
 * own Origin, or a Host of its own that resolves to 127.0.0.1.
 */
const LOOPBACK_HOSTS = new Set(['127.0.0.1', 'localhost', '[::1]']);

interface Headers {
  readonly host?: string | undefined;
  readonly origin?: string | undefined;
}

export function isFromThisMachine({ host, origin }: Headers): boolean {
  if (host === undefined || !LOOPBACK_HOSTS.has(hostname(`http://${host}`))) return false;
  return origin === undefined || LOOPBACK_HOSTS.has(hostname(origin));
}

function hostname(url: string): string {
  return URL.canParse(url) ? new URL(url).hostname : '';
}
