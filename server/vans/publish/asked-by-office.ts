/** What the office lacks, as it asks for it: from outside, so nothing of it is believed. */
import { type VanAsked, vanAskedSchema } from '../../../protocol/van-messages.ts';

/** At once; it asks again. */
const MOST = 1000;

export class AskedByOffice {
  #asked: VanAsked[] = [];

  hear(payload: Buffer): void {
    const asked = vanAskedSchema.safeParse(parsed(payload));
    if (asked.success && this.#asked.length < MOST) this.#asked.push(asked.data);
  }

  /** Each is taken once. */
  taken(): readonly VanAsked[] {
    const asked = this.#asked;
    this.#asked = [];
    return asked;
  }
}

/** What makes no sense is no question. */
function parsed(payload: Buffer): unknown {
  try {
    return JSON.parse(payload.toString('utf8'));
  } catch {
    return null;
  }
}
