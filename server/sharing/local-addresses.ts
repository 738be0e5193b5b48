/** Under which addresses and names this computer is met on a local network. */
import { hostname, networkInterfaces } from 'node:os';

/**
 * RFC 1918, and RFC 3927 for two machines on one cable. What is reached from the internet, or through a tunnel that
 * uses other addresses, is not shared.
 */
const PRIVATE = /^(10|192\.168|172\.(1[6-9]|2\d|3[01])|169\.254)\./u;
/** RFC 1123, section 2.1: what else a computer may be called is no part of an address. */
const HOST_NAME = /^[a-z0-9](?:[a-z0-9-]{0,61}[a-z0-9])?$/u;

export function localAddresses(interfaces = networkInterfaces()): string[] {
  const all = Object.values(interfaces).flatMap((of) => of ?? []);
  const own = all.filter(({ family, internal }) => family === 'IPv4' && !internal);
  return [...new Set(own.map(({ address }) => address).filter((one) => PRIVATE.test(one)))].sort();
}

/** By itself, and as multicast DNS has it (RFC 6762). */
export function ownNames(name = hostname()): string[] {
  const [first = ''] = name.toLowerCase().split('.');
  return HOST_NAME.test(first) ? [first, `${first}.local`] : [];
}
