/** What the signs mean, of those that the figure shows: under the time axis. */
import { beyondSign, gapSign } from './draw-unmeasured.ts';
import type { FigurePicture } from './figure-picture.ts';
import { PLANE, PLANE_BOTTOM, textWidth } from './figure-plane.ts';
import { type Markup, markup } from './markup.ts';
import { PRINT } from './print-palette.ts';

const SIGN_WIDTH = 26;

interface Entry {
  readonly sign: Markup;
  readonly label: string;
}

export function drawLegend(picture: FigurePicture): Markup {
  let x: number = PLANE.left;
  const drawn = entriesFor(picture).map(({ sign, label }) => {
    const at = x;
    x += SIGN_WIDTH + 6 + textWidth(label) + 14;
    return markup`<g transform="translate(${at} ${PLANE_BOTTOM + 54})">${sign}<text x="${SIGN_WIDTH + 6}" y="4" fill="${PRINT.faint}">${label}</text></g>`;
  });
  return markup`<g class="legend">${drawn}</g>`;
}

function entriesFor(picture: FigurePicture): Entry[] {
  const { curve, fit } = picture;
  const words = picture.speech.wording.figure;
  const line = markup`<path d="M0 0h${SIGN_WIDTH}" stroke="${PRINT.ink}" stroke-width="1.5" />`;
  const band = markup`<rect y="-6" width="${SIGN_WIDTH}" height="12" fill="${PRINT.water}" fill-opacity="0.24" /><path d="M0 0h${SIGN_WIDTH}" stroke="${PRINT.water}" stroke-opacity="0.6" stroke-width="4.5" stroke-dasharray="9 6" />`;
  const box = { x: 0, y: -5, width: SIGN_WIDTH, height: 10 };
  return [
    ...(curve.pieces.length > 0 ? [{ sign: line, label: words.measured }] : []),
    ...(fit.length > 1 ? [{ sign: band, label: words.fit }] : []),
    ...(curve.overRange.length > 0 ? [{ sign: beyondSign('over', box), label: words.over }] : []),
    ...(curve.underRange.length > 0
      ? [{ sign: beyondSign('under', box), label: words.under }]
      : []),
    ...(curve.gaps.length > 0 ? [{ sign: gapSign(box), label: words.gap }] : []),
  ];
}
