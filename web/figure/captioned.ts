/** A figure that stands alone, as a file: with lines above it that say what it is of. */
import { drawFigure } from './draw-figure.ts';
import type { FigurePicture } from './figure-picture.ts';
import { FIGURE_HEIGHT, FIGURE_WIDTH } from './figure-plane.ts';
import { type Markup, markup } from './markup.ts';
import { PRINT } from './print-palette.ts';

const MARGIN = 16;
const LINE_HEIGHT = 21;
/** Below the figure: its key may take a second row. */
const FOOT = 32;

export interface CaptionedFigure {
  readonly svg: string;
  /** In the units of its view box, which are px where nobody says otherwise. */
  readonly width: number;
  readonly height: number;
}

/** @param caption the first line stands out */
export function captionedFigure(
  picture: FigurePicture,
  caption: readonly string[],
): CaptionedFigure {
  const top = MARGIN + caption.length * LINE_HEIGHT;
  const width = FIGURE_WIDTH + 2 * MARGIN;
  const height = top + FIGURE_HEIGHT + FOOT;
  const lines = caption.map(
    (line, at): Markup =>
      markup`<text x="${MARGIN}" y="${MARGIN + (at + 0.7) * LINE_HEIGHT}" font-size="${at === 0 ? 17 : 13}" font-weight="${at === 0 ? 600 : 400}" fill="${at === 0 ? PRINT.ink : PRINT.faint}">${line}</text>`,
  );
  const figure = markup`<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" font-family="sans-serif">
<rect width="${width}" height="${height}" fill="${PRINT.sheet}" />
${lines}
<svg x="${MARGIN}" y="${top}" width="${FIGURE_WIDTH}" height="${FIGURE_HEIGHT + FOOT}" viewBox="0 0 ${FIGURE_WIDTH} ${FIGURE_HEIGHT + FOOT}">${drawFigure(picture)}</svg>
</svg>
`;
  return { svg: figure.text, width, height };
}
