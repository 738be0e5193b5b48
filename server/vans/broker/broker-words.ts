/** What goes wrong with a broker, in words that say what to do. */
import type { BrokerAddress } from './broker-address.ts';

export function nameOf({ host, port }: BrokerAddress): string {
  return `the broker at ${host}:${port}`;
}

export function whatToDo(error: unknown, address: BrokerAddress): string {
  const message = error instanceof Error ? error.message : String(error);
  const code = codeOf(error);
  const at = nameOf(address);
  if (code === 134 || code === 135)
    return `${at} refuses the user name or password: see --broker-login`;
  if (typeof code === 'string' && /CERT|SELF_SIGNED|ERR_TLS|ISSUER|LEAF_SIGNATURE/u.test(code))
    return `${at} can't show a certificate that is trusted for ${address.host} (${message}): see --broker-ca`;
  return `${at} can't be reached (${message})`;
}

export function disconnected(reasonCode: number | undefined): string {
  if (reasonCode === 142)
    return 'the broker let another program in under the same name: each van needs one of its own, see --van';
  return `the broker ended the connection (reason ${reasonCode ?? 0})`;
}

export function refused(error: Error, topic: string): string {
  const code = codeOf(error);
  if (code === 135) return `the broker does not allow writing to ${topic}: see its access list`;
  return `the broker refuses a message to ${topic} (${error.message})`;
}

function codeOf(error: unknown): unknown {
  return typeof error === 'object' && error !== null && 'code' in error ? error.code : null;
}
