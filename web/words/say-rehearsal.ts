/** A rehearsal by its name: a job of its own, or one drawn by its number. */
import { scenarioOfTitle } from '../../protocol/rehearsal-title.ts';
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

/** 'Florist in Station Road, shop' for `station-road-florist`; null where no such scenario is known. */
export function sayPlace(name: string, { wording }: Speech): string | null {
  const places: Readonly<Record<string, string | undefined>> = wording.rehearse.places;
  return places[name] ?? null;
}

/** @param seed null where nobody knows it any more */
export function sayRehearsed(name: string, seed: number | null, speech: Speech): string {
  const { drawnJobs, numbered } = speech.wording.rehearse;
  const difficulty = DRAWN[name];
  if (difficulty === undefined) return sayPlace(name, speech) ?? name.replaceAll('-', ' ');
  const job = drawnJobs[difficulty];
  return seed === null ? job : numbered({ job, number: String(seed) });
}

/** A rehearsal by the title of its recording, during it and afterwards. */
export function sayRehearsalJob(title: string, speech: Speech): string {
  const { name, seed } = scenarioOfTitle(title);
  return sayRehearsed(name, seed, speech);
}

export function sayRehearsalTitle(title: string, speech: Speech): string {
  return speech.wording.rehearse.titleOf({ job: sayRehearsalJob(title, speech) });
}

/** How fast it goes: '×20'. */
export function sayRate(rate: number, { wording }: Speech): string {
  return rate === 1 ? wording.rehearse.asInLife : `×${rate}`;
}
