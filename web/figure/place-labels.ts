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
 * Above its line where that is free, else below it, else above and beside the ones that are there.
 * @param height of a line of letters, px
 * @param bottom lower edge of the drawing: nothing goes below it
 */
export function placeLabels(
  wishes: readonly LabelWish[],
  height: number,
  bottom: number,
): LabelPlace[] {
  const taken: (LabelPlace & { readonly width: number })[] = [];
  const isFree = ({ inset, middle }: LabelPlace, width: number) =>
    middle + height / 2 <= bottom &&
    taken.every(
      (other) =>
        Math.abs(other.middle - middle) >= height ||
        inset >= other.inset + other.width + GAP ||
        other.inset >= inset + width + GAP,
    );
  return wishes.map(({ y, width }) => {
    const above = y - height * 0.6;
    const besides = taken.map((other) => other.inset + other.width + GAP).sort((a, b) => a - b);
    const places = [
      { inset: 0, middle: above },
      { inset: 0, middle: y + height * 0.6 },
      ...besides.map((inset) => ({ inset, middle: above })),
    ];
    const place = places.find((one) => isFree(one, width)) ?? { inset: 0, middle: above };
    taken.push({ ...place, width });
    return place;
  });
}
