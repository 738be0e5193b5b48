/** What sharing stands on: codes, paired screens, the certificate, and how much each may ask. */
import { join } from 'node:path';
import { ProblemError } from '../../protocol/problems.ts';
import type { PairedRole, Pairing, PairWish } from '../../protocol/sharing.ts';
import { Allowance } from './allowance.ts';
import { type Certificate, certificateFor } from './certificate.ts';
import { localAddresses, ownNames } from './local-addresses.ts';
import { isTyped, PairingCodes } from './pairing-codes.ts';
import { type KeptScreen, ScreenBook } from './screen-book.ts';

const MINUTE_MS = 60_000;
/** Wrong codes of one address in ten minutes, and of all addresses together. 2^40 codes can be typed. */
const TRIES = { most: 5, inAll: 30, withinMs: 10 * MINUTE_MS } as const;
/** A page asks some forty times to open, and every few seconds from then on. */
const REQUESTS = { ofScreen: 1200, ofStranger: 300, ofStrangers: 3000 } as const;
const ALL = 'all';
/** More than a crew has. */
const MOST_SCREENS = 20;

interface SharingOptions {
  readonly dataFolder: string;
  readonly clock: () => number;
  /** Those of the local network, as they are now. */
  readonly addresses?: () => readonly string[];
}

export class Sharing {
  readonly #options: SharingOptions;
  readonly #addresses: () => readonly string[];
  readonly #codes: PairingCodes;
  readonly #screens: ScreenBook;
  readonly #tries: Allowance;
  readonly #triesInAll: Allowance;
  readonly #ofScreens: Allowance;
  readonly #ofStrangers: Allowance;
  readonly #ofStrangersInAll: Allowance;

  constructor(options: SharingOptions) {
    const { dataFolder, clock, addresses = localAddresses } = options;
    this.#options = options;
    this.#addresses = addresses;
    this.#codes = new PairingCodes(clock);
    this.#screens = new ScreenBook(join(dataFolder, 'paired-screens.json'), clock);
    this.#tries = new Allowance(TRIES.most, TRIES.withinMs, clock);
    this.#triesInAll = new Allowance(TRIES.inAll, TRIES.withinMs, clock);
    this.#ofScreens = new Allowance(REQUESTS.ofScreen, MINUTE_MS, clock);
    this.#ofStrangers = new Allowance(REQUESTS.ofStranger, MINUTE_MS, clock);
    this.#ofStrangersInAll = new Allowance(REQUESTS.ofStrangers, MINUTE_MS, clock);
  }

  offer(role: PairedRole): Pairing {
    return this.#codes.offer(role);
  }

  /** @throws ProblemError `too_many_tries`, `too_many_screens`, `wrong_code` */
  pair(address: string, { code, name }: PairWish): { screen: KeptScreen; token: string } {
    // Others who guess must not keep out whoever has the long code, which nobody can guess.
    const left = this.#tries.hasLeft(address) && (!isTyped(code) || this.#triesInAll.hasLeft(ALL));
    if (!left) throw new ProblemError('too_many_tries');
    if (this.#screens.list().length >= MOST_SCREENS) {
      throw new ProblemError('too_many_screens', `${MOST_SCREENS}`);
    }
    const role = this.#codes.take(code);
    if (role === null) {
      this.#tries.take(address);
      this.#triesInAll.take(ALL);
      throw new ProblemError('wrong_code');
    }
    return this.#screens.add(name, role);
  }

  /** Whoever shows this; null: nobody that is paired. */
  find(token: string): KeptScreen | null {
    return this.#screens.find(token);
  }

  screens(): KeptScreen[] {
    return this.#screens.list();
  }

  /** @throws ProblemError `not_found` */
  unpair(screenId: number): void {
    if (!this.#screens.remove(screenId)) {
      throw new ProblemError('not_found', `paired screen ${screenId}`);
    }
  }

  /** @param connected that are here now @returns those whose time is over from now on */
  removeOver(connected: readonly number[]): number[] {
    for (const id of connected) this.#screens.seen(id);
    return this.#screens.removeOver();
  }

  mayAsk(screenId: number, cost: number): boolean {
    return this.#ofScreens.take(String(screenId), cost);
  }

  mayStrangerAsk(address: string): boolean {
    return this.#ofStrangers.take(address) && this.#ofStrangersInAll.take(ALL);
  }

  /** Where it is to be met, and with what. */
  async place(): Promise<SharingPlace> {
    const { dataFolder, clock } = this.#options;
    const addresses = this.#addresses();
    const hosts = [...addresses, ...ownNames()];
    if (addresses.length === 0) return { addresses, hosts, certificate: null };
    return { addresses, hosts, certificate: await certificateFor(dataFolder, hosts, clock()) };
  }
}

export interface SharingPlace {
  readonly addresses: readonly string[];
  /** Addresses and names. */
  readonly hosts: readonly string[];
  /** None where there is no network to share with. */
  readonly certificate: Certificate | null;
}
