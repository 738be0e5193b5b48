/**
 * The cookie by which a paired screen is known. `__Host-` (RFC 6265bis, section 4.1.3.2): only over HTTPS, for this very
 * host and all of it; no script reads it, and no other site's page makes the browser send it.
 */
const NAME = '__Host-ebbline';
const ATTRIBUTES = 'Path=/; Secure; HttpOnly; SameSite=Strict';
/** The bridge itself decides how long it is good; browsers keep none for longer than 400 days. */
const KEPT_S = 400 * 24 * 3600;

export function sessionCookie(token: string): string {
  return `${NAME}=${token}; Max-Age=${KEPT_S}; ${ATTRIBUTES}`;
}

export function noSessionCookie(): string {
  return `${NAME}=; Max-Age=0; ${ATTRIBUTES}`;
}

/** @param header as it was sent @returns '' where it has none */
export function tokenIn(header: string | undefined): string {
  for (const pair of (header ?? '').split(';')) {
    const [name = '', value = ''] = pair.split('=', 2);
    if (name.trim() === NAME) return value.trim();
  }
  return '';
}
