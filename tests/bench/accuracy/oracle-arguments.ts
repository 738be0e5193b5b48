/** What the learners that run by themselves are told on the command line. */

/**
 * The argument at a place, counted from 0, as a count of at least `least`.
 * @throws with what is asked for, where it is no such count
 */
export function countArgument(place: number, what: string, usual: number, least: number): number {
  const given = process.argv[2 + place];
  if (given === undefined) return usual;
  const count = Number(given);
  if (Number.isInteger(count) && count >= least) return count;
  throw new Error(
    `argument ${place + 1}, ${what}: '${given}' is no whole number from ${least} up; without it, ${usual}`,
  );
}
