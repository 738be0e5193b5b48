/** Places the names of level lines at the right edge, so that no two lie on one another. Pure. */

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

const GAP = 14;

/**
 * Above its line where that is free, else below it, else beside the ones that are there, else as far
 * above or below them as it takes.
 * @param height of a line of letters, px
 * @param room width and lower edge of the drawing: nothing goes beyond them
 */
export function placeLabels(
  wishes: readonly LabelWish[],
  height: number,
  room: { readonly width: number; readonly bottom: number },
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
    const above = y - height * 0.6;
    const besides = taken.map((other) => other.inset + other.width + GAP).sort((a, b) => a - b);
    const stacked = taken
      .flatMap((other) => [other.middle + height, other.middle - height])
      .sort((a, b) => Math.abs(a - y) - Math.abs(b - y));
    const places = [
      { inset: 0, middle: above },
      { inset: 0, middle: y + height * 0.6 },
      ...besides.map((inset) => ({ inset, middle: above })),
      ...stacked.map((middle) => ({ inset: 0, middle })),
    ];
    const place = places.find((one) => isFree(one, width)) ?? { inset: 0, middle: above };
    taken.push({ ...place, width });
    return place;
  });
}
