/** Requests to the bridge about screens: this one, and those that are paired. */
import {
  type PairedRole,
  type Pairing,
  pairingSchema,
  type PairWish,
  type SharingState,
  sharingStateSchema,
  type ThisScreen,
  thisScreenSchema,
} from '../../protocol/sharing.ts';
import { type Answer, ask } from './bridge-api.ts';

export function askThisScreen(): Promise<Answer<ThisScreen>> {
  return ask('GET', 'this-screen', undefined, thisScreenSchema);
}

export function pairThisScreen(wish: PairWish): Promise<Answer<ThisScreen>> {
  return ask('POST', 'pair', wish, thisScreenSchema);
}

export function unpairThisScreen(): Promise<Answer<unknown>> {
  return ask('POST', 'this-screen/leave', {}, null);
}

export function sharingState(): Promise<Answer<SharingState>> {
  return ask('GET', 'sharing', undefined, sharingStateSchema);
}

export function offerPairing(role: PairedRole): Promise<Answer<Pairing>> {
  return ask('POST', 'sharing/codes', { role }, pairingSchema);
}

export function unpairScreen(id: number): Promise<Answer<unknown>> {
  return ask('POST', `sharing/screens/${id}/unpair`, {}, null);
}
