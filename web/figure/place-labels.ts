/** Places the names of level lines near the right edge, so that none lies on another, nor on the curve. Pure. */

export interface LabelWish {
  /** Of its line, px from the top. */
  readonly y: number;
  readonly width: number;
}

export interface LabelPlace {
  /** Distance of its right end from the edge, px. */
  readonly inset: number;
  /** Middle of its letters, px from the top. */
  readonly middle: number;
}

/** What letters should not stand on, px: from the right edge to its right end, and from the top. */
export interface Obstacle {
  readonly inset: number;
  readonly width: number;
  readonly top: number;
  readonly bottom: number;
}

const GAP = 14;

/**
 * Above its line where that is free, else below it, else beside the ones that are there, else further
 * from the edge, else as far above or below the others as it takes.
 * @param height of a line of letters, px
 * @param room width and lower edge of the drawing: nothing goes beyond them
 * @param obstacles the one that matters most first: where there is no place clear of all of them, a name
 * keeps clear of that one, and where not even that goes, of the other names alone
 */
export function placeLabels(
  wishes: readonly LabelWish[],
  height: number,
  room: { readonly width: number; readonly bottom: number },
  obstacles: readonly Obstacle[] = [],
): LabelPlace[] {
  const taken: (LabelPlace & { readonly width: number })[] = [];
  const isFree = ({ inset, middle }: LabelPlace, width: number) =>
    middle + height / 2 <= room.bottom &&
    inset + width <= room.width &&
    taken.every(
      (other) =>
        Math.abs(other.middle - middle) >= height ||
        inset >= other.inset + other.width + GAP ||
        other.inset >= inset + width + GAP,
    );
  return wishes.map(({ y, width }) => {
    const [above, below] = [y - height * 0.6, y + height * 0.6];
    const besides = taken.map((other) => other.inset + other.width + GAP).sort((a, b) => a - b);
    const stacked = taken
      .flatMap((other) => [other.middle + height, other.middle - height])
      .sort((a, b) => Math.abs(a - y) - Math.abs(b - y));
    const places = [
      { inset: 0, middle: above },
      { inset: 0, middle: below },
      ...besides.map((inset) => ({ inset, middle: above })),
      ...insetsUpTo(room.width - width, height).flatMap((inset) => [
        { inset, middle: above },
        { inset, middle: below },
      ]),
      ...stacked.map((middle) => ({ inset: 0, middle })),
    ];
    const free = places.filter((place) => isFree(place, width));
    const clearOf = (some: readonly Obstacle[]) =>
      free.find((place) => some.every((one) => isClear(place, width, height, one)));
    const place = clearOf(obstacles) ??
      clearOf(obstacles.slice(0, 1)) ??
      free[0] ?? { inset: 0, middle: above };
    taken.push({ ...place, width });
    return place;
  });
}

function insetsUpTo(mostPx: number, stepPx: number): number[] {
  const steps = Math.max(0, Math.floor(mostPx / stepPx));
  return Array.from({ length: steps }, (_, at) => (at + 1) * stepPx);
}

function isClear(
  { inset, middle }: LabelPlace,
  width: number,
  height: number,
  { inset: from, width: long, top, bottom }: Obstacle,
): boolean {
  const isBeside = inset >= from + long || from >= inset + width;
  return isBeside || middle + height / 2 <= top || middle - height / 2 >= bottom;
}
