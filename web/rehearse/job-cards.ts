/** The rehearsals on offer, sorted, and the number that a drawn one goes by: pure. */
import type { RehearsalCard } from '../../protocol/api.ts';
import { isDrawn } from '../words/say-rehearsal.ts';

export interface SortedCards {
  /** Always the same job. */
  readonly jobs: readonly RehearsalCard[];
  /** Another job for each number, by difficulty. */
  readonly drawn: readonly RehearsalCard[];
}

export function sortCards(cards: readonly RehearsalCard[]): SortedCards {
  return {
    jobs: cards.filter(({ name }) => !isDrawn(name)),
    drawn: cards.filter(({ name }) => isDrawn(name)),
  };
}

const HIGHEST_SEED = 0xffff_ffff;
/** Few enough digits to be told to somebody else. */
const DRAWN_SEEDS = 10_000;

/** @param random any whole number, evenly distributed */
export function seedFromRandom(random: number): number {
  return random % DRAWN_SEEDS;
}

/** As typed in, or null where that is no such number. */
export function seedFromText(text: string): number | null {
  if (!/^\d{1,10}$/u.test(text.trim())) return null;
  const seed = Number(text);
  return seed <= HIGHEST_SEED ? seed : null;
}
