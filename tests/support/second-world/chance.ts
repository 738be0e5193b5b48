/** What is drawn for the second world, beside the plain numbers of `invented-curves.ts`. */
export function chance(random: () => number, share: number): boolean {
  return random() < share;
}

/** One of them, each as likely; name one twice to make it twice as likely. */
export function choose<T>(random: () => number, among: readonly T[]): T {
  const chosen = among[Math.floor(random() * among.length)];
  if (chosen === undefined) throw new RangeError('there is nothing to choose from');
  return chosen;
}
