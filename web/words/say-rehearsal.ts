/** A rehearsal by its name: a job of its own, or one drawn by its number. */
import type { Wording } from './english.ts';
import type { Speech } from './speech.ts';

/** A helper does something next; where nobody does, time alone goes on. */
export function sayJump(helper: boolean, { wording }: Speech): { long: string; short: string } {
  const { nextEvent, tenMinutes } = wording.rehearse.bar;
  return helper ? nextEvent : tenMinutes;
}

type Difficulty = keyof Wording['rehearse']['difficulties'];

const DRAWN: Readonly<Record<string, Difficulty>> = {
  'generated-plain': 'plain',
  'generated-mixed': 'mixed',
  'generated-hard': 'hard',
};

export function isDrawn(name: string): boolean {
  return name in DRAWN;
}

/** 'Mixed' for `generated-mixed`; null where the name is not that of a job drawn by its number. */
export function sayDifficulty(name: string, { wording }: Speech): string | null {
  const difficulty = DRAWN[name];
  return difficulty === undefined ? null : wording.rehearse.difficulties[difficulty];
}

/** @param place as on its card, or null where the list has it no longer */
export function sayRehearsed(
  name: string,
  seed: number,
  place: string | null,
  { wording }: Speech,
): string {
  const job = place ?? name.replaceAll('-', ' ');
  return isDrawn(name) ? wording.rehearse.numbered({ job, number: String(seed) }) : job;
}

/** How fast it goes: '×20'. */
export function sayRate(rate: number, { wording }: Speech): string {
  return rate === 1 ? wording.rehearse.asInLife : `×${rate}`;
}
