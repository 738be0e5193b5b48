/** A pressure curve as SVG, for paper: pull-down on a logarithmic axis, rise on a linear one. */
import { drawAxes } from './draw-axes.ts';
import { drawBeside, drawFit, drawLevel, drawMeasured } from './draw-curve.ts';
import { drawFlags, drawLineLabels, drawLines } from './draw-flags.ts';
import { legendOf } from './draw-legend.ts';
import { drawUnmeasured } from './draw-unmeasured.ts';
import type { FigurePicture } from './figure-picture.ts';
import { FIGURE_HEIGHT, FIGURE_WIDTH, LETTER_PX, PLANE } from './figure-plane.ts';
import { type Markup, markup, NOTHING } from './markup.ts';
import { PRINT } from './print-palette.ts';

export function drawFigure(picture: FigurePicture): Markup {
  const { id, title } = picture;
  const legend = legendOf(picture);
  // A second row of the legend needs more room, and would be cut off without.
  const height = Math.max(FIGURE_HEIGHT, legend.bottom);
  const area = markup`x="${PLANE.left}" y="${PLANE.top}" width="${PLANE.width}" height="${PLANE.height}"`;
  return markup`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${FIGURE_WIDTH} ${height}" role="img" aria-labelledby="${id}-title" font-family="sans-serif" font-size="${LETTER_PX}">
<title id="${id}-title">${title}</title>
<defs><clipPath id="${id}-plane"><rect ${area} /></clipPath></defs>
<rect ${area} fill="${PRINT.sheet}" />
${drawGround(picture.ground)}
${drawAxes(picture)}
<g clip-path="url(#${id}-plane)">${drawUnmeasured(picture)}
${drawLevel(picture)}
${drawFit(picture)}
${drawLines(picture)}
${drawBeside(picture)}
${drawMeasured(picture)}</g>
${drawFlags(picture)}
${drawLineLabels(picture)}
${legend.drawn}
</svg>`;
}

/** For a rehearsal the word that says so, large and under the curve. */
function drawGround(text: string): Markup {
  if (text === '') return NOTHING;
  return markup`<text x="${PLANE.left + PLANE.width / 2}" y="${PLANE.top + PLANE.height * 0.55}" text-anchor="middle" font-style="italic" font-size="84" fill="${PRINT.rule}">${text}</text>`;
}
