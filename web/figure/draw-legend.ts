/** What the signs mean, of those that the figure shows: under the time axis. */
import { dashesOf } from './draw-curve.ts';
import { beyondSign, gapSign, stripSign } from './draw-unmeasured.ts';
import type { FigurePicture } from './figure-picture.ts';
import { FIGURE_WIDTH, PLANE, PLANE_BOTTOM, textWidth } from './figure-plane.ts';
import { type Markup, markup } from './markup.ts';
import { PRINT } from './print-palette.ts';

const STRIP_KINDS = ['late', 'fault', 'warming_up'] as const;
const SIGN_WIDTH = 26;
const ROW_HEIGHT = 18;

interface Entry {
  readonly sign: Markup;
  readonly label: string;
}

interface Legend {
  readonly drawn: Markup;
  /** Below its last row. */
  readonly bottom: number;
}

export function legendOf(picture: FigurePicture): Legend {
  let x: number = PLANE.left;
  let y = PLANE_BOTTOM + 54;
  const drawn = entriesFor(picture).map(({ sign, label }) => {
    const width = SIGN_WIDTH + 6 + textWidth(label) + 14;
    if (x > PLANE.left && x + width > FIGURE_WIDTH) {
      x = PLANE.left;
      y += ROW_HEIGHT;
    }
    const at = x;
    x += width;
    return markup`<g transform="translate(${at} ${y})">${sign}<text x="${SIGN_WIDTH + 6}" y="4" fill="${PRINT.faint}">${label}</text></g>`;
  });
  return { drawn: markup`<g class="legend">${drawn}</g>`, bottom: y + ROW_HEIGHT / 2 };
}

function entriesFor(picture: FigurePicture): Entry[] {
  const { curve, fit, fitName, name, beside, strips } = picture;
  const { key: words, stretches } = picture.speech.wording.chart;
  const line = markup`<path d="M0 0h${SIGN_WIDTH}" stroke="${PRINT.ink}" stroke-width="1.5" />`;
  const band = markup`<rect y="-6" width="${SIGN_WIDTH}" height="12" fill="${PRINT.water}" fill-opacity="0.24" /><path d="M0 0h${SIGN_WIDTH}" stroke="${PRINT.water}" stroke-opacity="0.6" stroke-width="4.5" stroke-dasharray="9 6" />`;
  const box = { x: 0, y: -5, width: SIGN_WIDTH, height: 10 };
  return [
    ...(curve.pieces.length > 0
      ? [{ sign: line, label: name === '' ? words.measured : name }]
      : []),
    ...beside.map((other, at) => ({
      sign: markup`<path d="M0 0h${SIGN_WIDTH}" stroke="${PRINT.kelp}" stroke-width="1.3" stroke-dasharray="${dashesOf(at)}" />`,
      label: other.name,
    })),
    ...(fit.length > 1 ? [{ sign: band, label: fitName }] : []),
    ...(curve.overRange.length > 0
      ? [{ sign: beyondSign('over', box), label: stretches.over_range }]
      : []),
    ...(curve.underRange.length > 0
      ? [{ sign: beyondSign('under', box), label: stretches.under_range }]
      : []),
    ...(curve.gaps.length > 0 ? [{ sign: gapSign(box), label: stretches.gap }] : []),
    ...STRIP_KINDS.filter((kind) => strips.some((strip) => strip.kind === kind)).map((kind) => ({
      sign: stripSign(kind, box),
      label: stretches[kind],
    })),
  ];
}
