/** Places the flags of marks in rows, so that no two labels lie on one another. Pure. */

export interface FlagWish {
  /** Where its pole stands, px from the left edge of the drawing. */
  readonly x: number;
  readonly width: number;
}

export interface FlagPlace {
  /** 0 is the top row; null where there is no room for the label, and the pole stands alone. */
  readonly row: number | null;
  /** Whether the label flies to the left of its pole, as near the right edge. */
  readonly left: boolean;
}

/** A stretch of a row that something else stands in. */
export interface TakenPlace {
  readonly row: number;
  readonly from: number;
  readonly to: number;
}

const GAP = 10;

export function placeFlags(
  wishes: readonly FlagWish[],
  width: number,
  rows: number,
  takenBefore: readonly TakenPlace[] = [],
): FlagPlace[] {
  const taken = [...takenBefore];
  return wishes.map((wish) => {
    const left = wish.x + wish.width > width && wish.x - wish.width >= 0;
    const from = left ? wish.x - wish.width : wish.x;
    const to = from + wish.width;
    for (let row = 0; row < rows; row += 1) {
      const free = taken.every(
        (other) => other.row !== row || from > other.to + GAP || to + GAP < other.from,
      );
      if (!free) continue;
      taken.push({ row, from, to });
      return { row, left };
    }
    return { row: null, left };
  });
}
