/** Screens that were paired. Of what they show at each request only a hash is kept: whoever reads the file can't be one. */
import { createHash, randomBytes } from 'node:crypto';
import { z } from 'zod';
import { PAIRED_ROLES, type PairedRole } from '../../protocol/sharing.ts';
import { readPrivate, writePrivate } from './private-file.ts';

const DAY_MS = 24 * 3600_000;
/** A phone that lies in a drawer for a month, or was lost, is asked again. A setting of ours. */
const IDLE_LIMIT_MS = 30 * DAY_MS;
/** However often it is used. A setting of ours. */
const AGE_LIMIT_MS = 180 * DAY_MS;
/** When it was seen last is written this often at most. */
const SEEN_EVERY_MS = 3600_000;
const TOKEN_BYTES = 32;

const keptScreenSchema = z.strictObject({
  id: z.int().min(1),
  name: z.string(),
  role: z.enum(PAIRED_ROLES),
  tokenSha256: z.string(),
  pairedAtMs: z.int(),
  lastSeenAtMs: z.int(),
});
export type KeptScreen = z.infer<typeof keptScreenSchema>;
const bookSchema = z.strictObject({
  lastId: z.int().min(0),
  screens: z.array(keptScreenSchema),
});

export class ScreenBook {
  readonly #path: string;
  readonly #clock: () => number;
  readonly #byHash = new Map<string, KeptScreen>();
  #lastId = 0;

  /** A file that can't be read lets nobody in: the screens are paired anew. */
  constructor(path: string, clock: () => number) {
    this.#path = path;
    this.#clock = clock;
    const { data: book } = bookSchema.safeParse(readPrivate(path));
    if (book === undefined) return;
    this.#lastId = book.lastId;
    for (const screen of book.screens) this.#byHash.set(screen.tokenSha256, screen);
  }

  /** Those whose time is not over. */
  list(): KeptScreen[] {
    return [...this.#byHash.values()].filter((screen) => !this.#isOver(screen));
  }

  /** @returns what the screen shows from now on; it is kept nowhere here */
  add(name: string, role: PairedRole): { screen: KeptScreen; token: string } {
    const token = randomBytes(TOKEN_BYTES).toString('base64url');
    const nowMs = this.#clock();
    this.#lastId += 1;
    const times = { pairedAtMs: nowMs, lastSeenAtMs: nowMs };
    const screen = { id: this.#lastId, name, role, tokenSha256: hashOf(token), ...times };
    this.#byHash.set(screen.tokenSha256, screen);
    this.#write();
    return { screen, token };
  }

  /** Whoever shows this; null where nobody may any more. */
  find(token: string): KeptScreen | null {
    const screen = this.#byHash.get(hashOf(token));
    if (screen === undefined || this.#isOver(screen)) return null;
    return this.#seen(screen);
  }

  /** @returns whether there was one */
  remove(id: number): boolean {
    const screen = [...this.#byHash.values()].find((one) => one.id === id);
    if (screen === undefined) return false;
    this.#byHash.delete(screen.tokenSha256);
    this.#write();
    return true;
  }

  /** Lets go of those whose time is over. @returns which */
  removeOver(): number[] {
    const over = [...this.#byHash.values()].filter((screen) => this.#isOver(screen));
    for (const { tokenSha256 } of over) this.#byHash.delete(tokenSha256);
    if (over.length > 0) this.#write();
    return over.map(({ id }) => id);
  }

  /** It is here now: an open connection counts, too. */
  seen(id: number): void {
    const screen = [...this.#byHash.values()].find((one) => one.id === id);
    if (screen !== undefined) this.#seen(screen);
  }

  #seen(screen: KeptScreen): KeptScreen {
    const nowMs = this.#clock();
    if (nowMs - screen.lastSeenAtMs < SEEN_EVERY_MS) return screen;
    const later = { ...screen, lastSeenAtMs: nowMs };
    this.#byHash.set(later.tokenSha256, later);
    this.#write();
    return later;
  }

  #isOver({ pairedAtMs, lastSeenAtMs }: KeptScreen): boolean {
    const nowMs = this.#clock();
    return nowMs - lastSeenAtMs > IDLE_LIMIT_MS || nowMs - pairedAtMs > AGE_LIMIT_MS;
  }

  #write(): void {
    const screens = [...this.#byHash.values()];
    writePrivate(this.#path, JSON.stringify({ lastId: this.#lastId, screens }, null, 2));
  }
}

/** Of 256 random bits nothing slower is needed. */
function hashOf(token: string): string {
  return createHash('sha256').update(token).digest('hex');
}
