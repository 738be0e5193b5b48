/** What a hold can be concluded to show. */
export const VERDICTS = [
  'tight_dry',
  'moisture',
  'leak',
  'leak_and_moisture',
  'undecided',
] as const;
export type Verdict = (typeof VERDICTS)[number];
