/** The prepared sheet that is being filled in, by whichever panel. */
import { computed, signal } from '@preact/signals';
import { type SheetEntry, sheetFromEntries } from '../../protocol/sheet.ts';
import { keepPreparedSheet } from '../connection/bridge-api.ts';
import { tell } from '../parts/notice.ts';
import { lookForPrepared, preparedSheets } from './prepared-list.ts';

interface SheetAtHand {
  /** Its number; null: it is a new one. */
  readonly prepared: number | null;
  readonly fields: SheetEntry['fields'];
  /** Another one each time that one is taken to hand. */
  readonly turn: number;
}

const atHand = signal<SheetAtHand | null>(null);
let turns = 0;

export const preparedAtHand = computed(() => atHand.value?.prepared ?? null);
export const turnAtHand = computed(() => atHand.value?.turn ?? 0);
export const fieldsAtHand = computed(() => atHand.value?.fields ?? {});
export const sheetAtHand = computed(() =>
  sheetFromEntries([{ elapsedS: 0, fields: fieldsAtHand.value }]),
);

export function takeToHand({ prepared, fields }: Omit<SheetAtHand, 'turn'>): void {
  turns += 1;
  atHand.value = { prepared, fields, turn: turns };
}

/** Where nobody said which: the latest that waits, or a new one. One that a job has taken over is no longer meant. */
export async function findAtHand(): Promise<void> {
  await lookForPrepared();
  const waiting = preparedSheets.peek();
  const held = atHand.peek();
  const isThere = waiting.some(({ prepared }) => prepared === held?.prepared);
  if (held !== null && (held.prepared === null || isThere)) return;
  takeToHand(waiting[0] ?? { prepared: null, fields: {} });
}

/** @returns whether the bridge has it; if not, that is said */
export async function keepAtHand(changed: SheetEntry['fields']): Promise<boolean> {
  const before = atHand.peek();
  const { prepared, turn } = before ?? { prepared: null, turn: 0 };
  const fields = { ...before?.fields, ...changed };
  const kept = await tell(keepPreparedSheet({ prepared, fields }));
  if (kept === null) return false;
  // Meanwhile another one may have been taken to hand.
  if (turnAtHand.peek() === turn) {
    atHand.value = { prepared: kept.prepared, fields: kept.fields, turn };
  }
  await lookForPrepared();
  return true;
}
