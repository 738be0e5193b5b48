/** How hard a generated job is to read. */
export const DIFFICULTIES = ['plain', 'mixed', 'hard'] as const;
export type Difficulty = (typeof DIFFICULTIES)[number];
