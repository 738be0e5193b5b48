/** Generated jobs by the names under which they are offered. */
import type { Scenario } from '../scenario.ts';
import { generatedName } from './card.ts';
import { DIFFICULTIES, type Difficulty } from './difficulty.ts';
import { generateScenario } from './generate-scenario.ts';

/** What the list shows instead of a card: the job itself is another for every seed. */
const SITUATIONS: Readonly<Record<Difficulty, string>> = {
  plain: 'Drawn anew each time: one thing is clearly the matter, or nothing is.',
  mixed: 'Drawn anew each time, milder: nothing is as clean as in a book.',
  hard: 'Drawn anew each time, near the limits: two things at once, or a reading that misleads.',
};

export const GENERATED_CARDS: readonly Scenario['card'][] = DIFFICULTIES.map((difficulty) => ({
  name: generatedName(difficulty),
  place: `Any job, ${difficulty}`,
  situation: SITUATIONS[difficulty],
}));

/** Whether a job of that name is another one for every seed. */
export function isGenerated(name: string): boolean {
  return difficultyOf(name) !== undefined;
}

function difficultyOf(name: string): Difficulty | undefined {
  return DIFFICULTIES.find((candidate) => generatedName(candidate) === name);
}

/** @returns null where no generated job has that name */
export function generatedScenario(name: string, seed: number): Scenario | null {
  const difficulty = difficultyOf(name);
  return difficulty === undefined ? null : generateScenario({ seed, difficulty });
}
