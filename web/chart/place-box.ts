/** Where a box of words stands, so that it never covers the point that it speaks of: pure. */

export interface Place {
  readonly left: number;
  readonly top: number;
}
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** Between point and box, px. */
const BESIDE = 18;

/**
 * Beside the point where there is room, else above or below it. All in px of the room.
 * @param point may lie on the room's edge
 */
export function placeBox(point: Place, box: Size, room: Size): Place {
  const onRight = point.left + BESIDE + box.width <= room.width;
  const onLeft = point.left - BESIDE - box.width >= 0;
  const within = (wanted: number, most: number) => Math.max(0, Math.min(wanted, most));
  if (onRight || onLeft) {
    const left = onRight ? point.left + BESIDE : point.left - BESIDE - box.width;
    return { left, top: within(point.top - box.height / 2, room.height - box.height) };
  }
  const left = within(point.left - box.width / 2, room.width - box.width);
  const below = room.height - point.top;
  // In the larger half, at its far end: where even that is too small it stands out of the room.
  if (below > point.top)
    return { left, top: Math.max(point.top + BESIDE, room.height - box.height) };
  return { left, top: Math.min(0, point.top - BESIDE - box.height) };
}
