/** Limits with their labels, and the flags of marks around them. */
import type { ChartLine } from './chart-lines.ts';
import type { FigurePicture } from './figure-picture.ts';
import {
  LETTER_PX,
  PLANE,
  PLANE_BOTTOM,
  PLANE_RIGHT,
  textWidth,
  xOf,
  yOf,
} from './figure-plane.ts';
import { brokenPole, type NameBox } from './broken-pole.ts';
import { Markup, markup } from './markup.ts';
import { placeFlags, type TakenPlace } from './place-flags.ts';
import { PRINT } from './print-palette.ts';

const ROW_HEIGHT = 19;
/** Below the strip that says 'above the range'. */
const FIRST_ROW = PLANE.top + 14;
/** More flags than this may have to go without a name. */
export const FLAG_ROWS = 8;
const PENNANT = 15;
/** Letters with the paper's colour around them, legible over lines and fill. */
const HALO = new Markup(
  `paint-order="stroke" stroke="${PRINT.sheet}" stroke-width="3.5" stroke-linejoin="round"`,
);

interface PlacedLine extends ChartLine {
  readonly y: number;
  /** The base of its label's letters. */
  readonly labelY: number;
}

export function drawLines(picture: FigurePicture): Markup[] {
  return placedLines(picture).map(
    ({ y, dashed, kind }) => markup`<path class="${kind}" d="M${PLANE.left} ${y}H${PLANE_RIGHT}"
 stroke="${colourOf(kind)}" stroke-width="1.6" stroke-dasharray="${dashesOf(kind, dashed)}" />`,
  );
}

export function drawLineLabels(picture: FigurePicture): Markup[] {
  return placedLines(picture).map(
    ({ label, labelY, kind }) =>
      markup`<text ${HALO} x="${PLANE_RIGHT - 6}" y="${labelY}" text-anchor="end" fill="${colourOf(kind)}">${label}</text>`,
  );
}

function colourOf(kind: ChartLine['kind']): string {
  return kind === 'floor' ? PRINT.water : PRINT.buoy;
}

function dashesOf(kind: ChartLine['kind'], dashed: boolean): string {
  if (!dashed) return 'none';
  return kind === 'floor' ? '14 5 3 5' : '2 4';
}

export function drawFlags(picture: FigurePicture): Markup[] {
  const wishes = picture.flags.map(({ elapsedS, label }) => ({
    x: xOf(picture, elapsedS) - PLANE.left,
    width: PENNANT + textWidth(label),
  }));
  const places = placeFlags(wishes, PLANE.width, FLAG_ROWS, takenByLabels(picture));
  const names = nameBoxes(picture);
  return picture.flags.map((flag, position) => {
    const place = places[position];
    const row = place?.row ?? null;
    return flagAt(xOf(picture, flag.elapsedS), names, row, place?.left === true, flag.label);
  });
}

/** The pole alone where there is no room for the label. */
function flagAt(
  x: number,
  names: readonly NameBox[],
  row: number | null,
  left: boolean,
  label: string,
): Markup {
  const top = row === null ? PLANE.top + PLANE.height * 0.9 : FIRST_ROW + row * ROW_HEIGHT;
  const way = left ? -1 : 1;
  const parts = brokenPole({ x, top, bottom: PLANE_BOTTOM }, names);
  const drawn = parts.map(([from, to]) => `M${x} ${from}V${to}`).join('');
  const pole = markup`<path d="${drawn}" stroke="${PRINT.ink}" stroke-width="0.8" />`;
  if (row === null) return markup`<g class="flag">${pole}</g>`;
  return markup`<g class="flag">${pole}<path d="M${x} ${top}h${10 * way}l${-3 * way} 5l${3 * way} 5h${-10 * way}z" fill="${PRINT.ink}" />
<text ${HALO} x="${x + PENNANT * way}" y="${top + 9}" text-anchor="${left ? 'end' : 'start'}" fill="${PRINT.ink}">${label}</text></g>`;
}

function placedLines(picture: FigurePicture): PlacedLine[] {
  const shown = picture.lines.filter(
    ({ pressurePa }) => pressurePa >= picture.range.lowPa && pressurePa <= picture.range.highPa,
  );
  return shown.map((line, position) => {
    const y = yOf(picture, line.pressurePa);
    const before = shown[position - 1];
    // Where two lines lie close, the lower one's label goes below it.
    const close = before !== undefined && Math.abs(yOf(picture, before.pressurePa) - y) < 20;
    const below = close && y + LETTER_PX + 4 < PLANE_BOTTOM;
    return { ...line, y, labelY: below ? y + LETTER_PX + 1 : y - 5 };
  });
}

/** What a pole stands behind. */
function nameBoxes(picture: FigurePicture): NameBox[] {
  return placedLines(picture).map(({ label, labelY }) => ({
    left: PLANE_RIGHT - 6 - textWidth(label) - 2,
    right: PLANE_RIGHT - 4,
    top: labelY - LETTER_PX,
    bottom: labelY + 4,
  }));
}

function takenByLabels(picture: FigurePicture): TakenPlace[] {
  return placedLines(picture).flatMap(({ label, labelY }) => {
    const from = PLANE.width - textWidth(label) - 6;
    return Array.from({ length: FLAG_ROWS }, (_, row) => ({ row, from, to: PLANE.width })).filter(
      ({ row }) => Math.abs(FIRST_ROW + row * ROW_HEIGHT + 9 - labelY) < ROW_HEIGHT - 3,
    );
  });
}
