/** Words around a rehearsal: choosing one, working it. */

export const REHEARSE_WORDS = {
  title: 'Rehearse',
  help: 'A simulated job with a hidden cause: work it, make the call, then see what told.',
  trainee: 'Who rehearses',
  traineeWhy: 'Calls and results are kept under this name, on this computer.',
  hands: 'Pump and valves',
  byHelper: 'A helper works them',
  byHand: 'My own hands',
  speed: 'Speed',
  drawn: 'A new one each time',
  difficulty: 'Difficulty',
  seed: 'Job number',
  seedWhy: 'The same number gives the same job again.',
  seedWrong: 'Job number: a whole number from 0 to 4294967295.',
  anotherSeed: 'Another number',
  jobs: 'Jobs on offer',
  start: 'Start',
  called: 'called before',
  results: 'Calls so far',
  asking: 'Asking the bridge…',
} as const;

export const BAR_WORDS = {
  name: 'Rehearsal, not a job',
  speed: 'Speed',
  pause: 'Pause',
  goOn: 'Go on',
  again: 'Begin again',
  stop: 'Stop',
  ended: 'It has ended.',
  call: 'I know what it is',
  reveal: 'Reveal it',
  whatTold: 'What told, and how it went',
  another: 'Another one',
} as const;

/** A helper does something next; where nobody does, time alone goes on. */
export function sayJump(helper: boolean): { readonly long: string; readonly short: string } {
  return helper
    ? { long: 'On to the next event', short: 'Next event' }
    : { long: 'Ten minutes on', short: '10 min on' };
}

const DRAWN_PREFIX = 'generated-';

/** 'Mixed' for `generated-mixed`, or null where the name is not that of a job drawn by its number. */
export function sayDifficulty(name: string): string | null {
  if (!name.startsWith(DRAWN_PREFIX)) return null;
  const difficulty = name.slice(DRAWN_PREFIX.length);
  return difficulty.charAt(0).toUpperCase() + difficulty.slice(1);
}

/** @param place as on its card, or null where the list has it no longer */
export function sayRehearsed(name: string, seed: number, place: string | null): string {
  const said = place ?? name.replaceAll('-', ' ');
  return sayDifficulty(name) === null ? said : `${said}, number ${seed}`;
}
