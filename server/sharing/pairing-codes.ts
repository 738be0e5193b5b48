/** Codes that the laptop shows: one at a time, good for one screen, once, for five minutes. */
import { createHash, randomBytes, randomInt, timingSafeEqual } from 'node:crypto';
import {
  type PairedRole,
  type Pairing,
  plainTypedCode,
  TYPED_CODE_LENGTH,
  TYPED_CODE_SIGNS,
} from '../../protocol/sharing.ts';

const CODE_LASTS_MS = 5 * 60_000;
/** 160 bits: more than the 128 that nobody can guess. */
const SECRET_BYTES = 20;

export class PairingCodes {
  readonly #clock: () => number;
  #open: { readonly pairing: Pairing; readonly madeAtMs: number } | null = null;

  constructor(clock: () => number) {
    this.#clock = clock;
  }

  /** A fresh one; the one before it is good for nothing any more. */
  offer(role: PairedRole): Pairing {
    const madeAtMs = this.#clock();
    const pairing = {
      role,
      secret: randomBytes(SECRET_BYTES).toString('base64url'),
      typed: typedCode(),
      expiresAtMs: madeAtMs + CODE_LASTS_MS,
    };
    this.#open = { pairing, madeAtMs };
    return pairing;
  }

  /** Uses the code up. @returns what it was for; null: it is not the one that is shown */
  take(code: string): PairedRole | null {
    const open = this.#shown();
    if (open === null) return null;
    const isIt = isTyped(code) ? same(plainTypedCode(code), open.typed) : same(code, open.secret);
    if (!isIt) return null;
    this.#open = null;
    return open.role;
  }

  #shown(): Pairing | null {
    if (this.#open === null) return null;
    const { pairing, madeAtMs } = this.#open;
    const nowMs = this.#clock();
    // A clock that was set back must not make it last for hours.
    return nowMs >= madeAtMs && nowMs < pairing.expiresAtMs ? pairing : null;
  }
}

/** The short one, which alone could be guessed. */
export function isTyped(code: string): boolean {
  return plainTypedCode(code).length <= TYPED_CODE_LENGTH;
}

function typedCode(): string {
  const signs = Array.from({ length: TYPED_CODE_LENGTH }, () =>
    TYPED_CODE_SIGNS.charAt(randomInt(TYPED_CODE_SIGNS.length)),
  );
  return signs.join('');
}

/** In a time that says nothing of how far they agree. */
function same(a: string, b: string): boolean {
  const hash = (text: string) => createHash('sha256').update(text).digest();
  return timingSafeEqual(hash(a), hash(b));
}
