/** What the web server needs for sharing with other screens; `main.ts` gives it. */
import type { PairedRole, Pairing, PairWish, SharedScreen } from '../../protocol/sharing.ts';

export type PairedScreen = Omit<SharedScreen, 'connected'>;

export interface SharingPlace {
  readonly addresses: readonly string[];
  /** Addresses and names under which a request may come. */
  readonly hosts: readonly string[];
  readonly certificate: SharingCertificate | null;
}

export interface SharingCertificate {
  readonly certificatePem: string;
  readonly privateKeyPem: string;
  readonly fingerprint: string;
}

export interface SharingAccess {
  offer(role: PairedRole): Pairing;
  /** @throws ProblemError `too_many_tries`, `too_many_screens`, `wrong_code` */
  pair(address: string, wish: PairWish): { screen: PairedScreen; token: string };
  find(token: string): PairedScreen | null;
  screens(): PairedScreen[];
  /** @throws ProblemError `not_found` */
  unpair(screenId: number): void;
  /** @param connected that are here now @returns those whose time is over from now on */
  removeOver(connected: readonly number[]): number[];
  mayAsk(screenId: number, cost: number): boolean;
  mayStrangerAsk(address: string): boolean;
  place(): Promise<SharingPlace>;
}
