/** Numbers of links, as a tombstone writes them: in order, neighbours as a span. */

/** @param numbers ascending */
export function writeLinkNumbers(numbers: readonly number[]): string {
  const spans: { first: number; last: number }[] = [];
  for (const number of numbers) {
    const latest = spans.at(-1);
    if (latest?.last === number - 1) latest.last = number;
    else spans.push({ first: number, last: number });
  }
  return spans
    .map(({ first, last }) => (first === last ? `${first}` : `${first}-${last}`))
    .join('|');
}

/** @returns whether a link is among them; of what is no such text none is */
export function readLinkNumbers(text: string): (number: number) => boolean {
  const spans = text.split('|').flatMap((span) => {
    const found = /^(\d+)(?:-(\d+))?$/u.exec(span);
    if (found === null) return [];
    const first = Number(found[1]);
    return [{ first, last: found[2] === undefined ? first : Number(found[2]) }];
  });
  return (number) => spans.some(({ first, last }) => number >= first && number <= last);
}
