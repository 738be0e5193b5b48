/** How a check ends otherwise than well. */

/** The sensor does otherwise than the profile asks. */
export class BrokenError extends Error {
  override readonly name = 'BrokenError';
  readonly expected: string;
  readonly came: string;
  constructor(expected: string, came: string) {
    super(`expected ${expected}; came ${came}`);
    this.expected = expected;
    this.came = came;
  }
}

/** What the check stands on isn't there; another check says why. */
export class NotTriedError extends Error {
  override readonly name = 'NotTriedError';
}

/** @throws BrokenError unless it holds */
export function expect(holds: boolean, expected: string, came: string): void {
  if (!holds) throw new BrokenError(expected, came);
}
