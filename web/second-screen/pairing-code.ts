/** The secret that a scanned address carries: taken out of it at once, so that it stays in no history and no bookmark. */
import { PAIRING_FRAGMENT } from '../../protocol/sharing.ts';

export function takePairingCode(): string {
  const { hash, pathname, search } = window.location;
  if (!hash.startsWith(PAIRING_FRAGMENT)) return '';
  window.history.replaceState(null, '', pathname + search);
  return hash.slice(PAIRING_FRAGMENT.length);
}
