/** Places the names of level lines near the right edge, so that each is read, and as that of its own line. Pure. */

export interface LabelWish {
  /** Of its line, px from the top. */
  readonly y: number;
  readonly width: number;
  /** Lines of one kind look alike. */
  readonly kind?: string;
}

export interface LabelPlace {
  /** Distance of its right end from the edge, px. */
  readonly inset: number;
  /** Middle of its letters, px from the top. */
  readonly middle: number;
}

/** A part of what is drawn, px: from the right edge to its right end, and from the top. */
export interface DrawnBox {
  readonly inset: number;
  readonly width: number;
  readonly top: number;
  readonly bottom: number;
}

/** What a name should not stand on, however much of it that is. */
export interface Obstacle {
  readonly boxes: readonly DrawnBox[];
  /** How bad it is; a setting of ours, as all of these: which evil is chosen where none can be avoided. */
  readonly badness: number;
}

const GAP = 14;
/** Half of the letters themselves, in terms of the height of their line: digits of 17 px in 22 px. */
const HALF_LETTERS = 0.3;
/** On another line's stroke a name is read as that line's, all the more where the two look alike. */
const ON_LINE_ALIKE = 4;
const ON_LINE = 1;

/**
 * Above its line where that is free, else below it, else beside the ones that are there, else further
 * from the edge, else as far above or below the others as it takes. Where each of these is on something,
 * the least bad of them.
 * @param height of a line of letters, px
 * @param room width and lower edge of the drawing: nothing goes beyond them
 */
export function placeLabels(
  wishes: readonly LabelWish[],
  height: number,
  room: { readonly width: number; readonly bottom: number },
  obstacles: readonly Obstacle[] = [],
): LabelPlace[] {
  const taken: (LabelPlace & { readonly width: number })[] = [];
  const isFree = ({ inset, middle }: LabelPlace, width: number) =>
    middle + height * HALF_LETTERS <= room.bottom &&
    inset + width <= room.width &&
    taken.every(
      (other) =>
        Math.abs(other.middle - middle) >= height ||
        inset >= other.inset + other.width + GAP ||
        other.inset >= inset + width + GAP,
    );
  return wishes.map((wish) => {
    const { y, width } = wish;
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
    const badness = (place: LabelPlace) =>
      onLines(place, height, wish, wishes) +
      obstacles.reduce((sum, { boxes, badness: bad }) => {
        return sum + (boxes.some((box) => isOn(place, width, height, box)) ? bad : 0);
      }, 0);
    const free = places.filter((place) => isFree(place, width));
    const place = leastBad(free, badness) ?? { inset: 0, middle: above };
    taken.push({ ...place, width });
    return place;
  });
}

/** The first of those than which none is better. */
function leastBad(
  places: readonly LabelPlace[],
  badness: (place: LabelPlace) => number,
): LabelPlace | null {
  let best: { place: LabelPlace; bad: number } | null = null;
  for (const place of places) {
    const bad = badness(place);
    if (best === null || bad < best.bad) best = { place, bad };
    if (bad === 0) break;
  }
  return best?.place ?? null;
}

function insetsUpTo(mostPx: number, stepPx: number): number[] {
  const steps = Math.max(0, Math.floor(mostPx / stepPx));
  return Array.from({ length: steps }, (_, at) => (at + 1) * stepPx);
}

function onLines(
  { middle }: LabelPlace,
  height: number,
  own: LabelWish,
  all: readonly LabelWish[],
): number {
  return all.reduce((sum, other) => {
    const isAcross = other !== own && Math.abs(other.y - middle) < height * HALF_LETTERS;
    return sum + (!isAcross ? 0 : other.kind === own.kind ? ON_LINE_ALIKE : ON_LINE);
  }, 0);
}

function isOn(
  { inset, middle }: LabelPlace,
  width: number,
  height: number,
  { inset: from, width: long, top, bottom }: DrawnBox,
): boolean {
  const isBeside = inset >= from + long || from >= inset + width;
  const half = height * HALF_LETTERS;
  return !isBeside && middle + half > top && middle - half < bottom;
}
