/** What the laptop is told of sharing while somebody looks at it, and the code that it shows. */
import { signal } from '@preact/signals';
import type { PairedRole, Pairing, SharingState } from '../../protocol/sharing.ts';
import { offerPairing, sharingState, unpairScreen } from '../connection/sharing-api.ts';
import { tell } from '../parts/notice.ts';

const LOOK_EVERY_MS = 2000;

export const sharing = signal<SharingState | null>(null);
/** With the screens that were there when it was shown: another one has used it up. */
export const shownCode = signal<{ readonly pairing: Pairing; readonly before: number } | null>(
  null,
);
/** The screen that has just used the code. */
export const justPaired = signal<string | null>(null);

/** @returns ends it */
export function keepLookingAtSharing(): () => void {
  justPaired.value = null;
  void look();
  const timer = window.setInterval(() => void look(), LOOK_EVERY_MS);
  return () => {
    window.clearInterval(timer);
    // Nobody looks at it any more; a fresh one is a tap away.
    shownCode.value = null;
  };
}

export async function showCode(role: PairedRole): Promise<void> {
  const pairing = await tell(offerPairing(role));
  if (pairing === null) return;
  justPaired.value = null;
  shownCode.value = { pairing, before: latestId() };
}

export async function unpair(id: number): Promise<void> {
  await tell(unpairScreen(id));
  await look();
}

async function look(): Promise<void> {
  const answer = await sharingState();
  // The connection says by itself that the bridge is gone.
  if (!answer.ok) return;
  sharing.value = answer.value;
  const shown = shownCode.value;
  if (shown === null) return;
  const newest = answer.value.on ? answer.value.screens.at(-1) : undefined;
  if (newest !== undefined && newest.id > shown.before) {
    justPaired.value = newest.name;
    shownCode.value = null;
  } else if (Date.now() > shown.pairing.expiresAtMs) shownCode.value = null;
}

function latestId(): number {
  const now = sharing.value;
  return now?.on === true ? (now.screens.at(-1)?.id ?? 0) : 0;
}
