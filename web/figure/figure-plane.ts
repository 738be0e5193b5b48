/** Where things stand in a figure, in the units of its view box, and how wide its letters are. */
import type { FigurePicture } from './figure-picture.ts';

export const FIGURE_WIDTH = 720;
export const FIGURE_HEIGHT = 400;
export const LETTER_PX = 12.5;

/** The plane between the axes. */
export const PLANE = { left: 66, top: 26, width: 592, height: 308 } as const;
export const PLANE_RIGHT = PLANE.left + PLANE.width;
export const PLANE_BOTTOM = PLANE.top + PLANE.height;

export function xOf({ time }: FigurePicture, elapsedS: number): number {
  const share = (elapsedS - time.fromS) / (time.toS - time.fromS);
  return rounded(PLANE.left + share * PLANE.width);
}

/** Nothing at or below zero can stand on a log axis: it goes below the lower edge. */
export function yOf({ time, range }: FigurePicture, pressurePa: number): number {
  const onAxis =
    time.axis === 'log'
      ? (pa: number) => Math.log(Math.max(pa, range.lowPa / 2))
      : (pa: number) => pa;
  const low = onAxis(range.lowPa);
  const share = (onAxis(pressurePa) - low) / (onAxis(range.highPa) - low);
  return rounded(PLANE_BOTTOM - share * PLANE.height);
}

/** A mean width per letter: nothing here can measure text, and a little too much does no harm. */
export function textWidth(text: string): number {
  return text.length * LETTER_PX * 0.54;
}

/** Hundredths are finer than any printer. */
function rounded(value: number): number {
  return Math.round(value * 100) / 100;
}
