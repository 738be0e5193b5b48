/** The parts of a flag's pole that are drawn: it stands behind whatever has a name. Pure. */

/** A name that a pole may run through, px. */
export interface NameBox {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** @returns from where to where it is drawn, px, from the top down */
export function brokenPole(
  pole: { readonly x: number; readonly top: number; readonly bottom: number },
  names: readonly NameBox[],
): readonly (readonly [number, number])[] {
  const inTheWay = names
    .filter(({ left, right }) => left <= pole.x && pole.x <= right)
    .sort((one, other) => one.top - other.top);
  const parts: [number, number][] = [];
  let from = pole.top;
  for (const { top, bottom } of inTheWay) {
    if (Math.min(top, pole.bottom) > from) parts.push([from, Math.min(top, pole.bottom)]);
    from = Math.max(from, bottom);
  }
  if (pole.bottom > from) parts.push([from, pole.bottom]);
  return parts;
}
