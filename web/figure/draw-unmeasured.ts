/** Where nothing was measured: gaps, and what lay beyond the sensor's range. */
import type { FigurePicture, FigureStrip } from './figure-picture.ts';
import { PLANE, PLANE_BOTTOM, xOf } from './figure-plane.ts';
import { type Markup, markup } from './markup.ts';
import { PRINT } from './print-palette.ts';
import type { TimeRange } from './time-range.ts';

const STRIP_HEIGHT = 9;
/** Narrower than this nothing can be seen. */
const NARROWEST = 2;
const HATCH_STEP = 5;
const STRIP_STEP = 12;

export function drawUnmeasured(picture: FigurePicture): Markup[] {
  const { gaps, overRange, underRange } = picture.curve;
  const stretch = (range: TimeRange) => {
    const x = xOf(picture, range.fromS);
    return { x, width: Math.max(NARROWEST, xOf(picture, range.toS) - x) };
  };
  return [
    ...gaps.map((gap) => gapSign({ ...stretch(gap), y: PLANE.top, height: PLANE.height })),
    ...overRange.map((range) =>
      beyondSign('over', { ...stretch(range), y: PLANE.top, height: STRIP_HEIGHT }),
    ),
    ...underRange.map((range) =>
      beyondSign('under', {
        ...stretch(range),
        y: PLANE_BOTTOM - STRIP_HEIGHT,
        height: STRIP_HEIGHT,
      }),
    ),
    ...picture.strips.map((strip) =>
      stripSign(strip.kind, {
        ...stretch(strip),
        y: PLANE_BOTTOM - 2 * STRIP_HEIGHT - 2,
        height: STRIP_HEIGHT,
      }),
    ),
  ];
}

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A dotted frame with nothing in it. */
export function gapSign({ x, y, width, height }: Box): Markup {
  return markup`<rect class="gap" x="${x}" y="${y}" width="${width}" height="${height}" fill="${PRINT.sheet}" stroke="${PRINT.faint}" stroke-dasharray="1 3" />`;
}

/** Each kind of strip has a shape of its own. */
export function stripSign(kind: FigureStrip['kind'], box: Box): Markup {
  return markup`<path class="${kind}" d="${stripPath(kind, box)}" fill="none" stroke="${PRINT.ink}" stroke-width="1" />`;
}

/** A double line, a row of crosses, or a wave. */
function stripPath(kind: FigureStrip['kind'], { x, y, width, height }: Box): string {
  if (kind === 'late')
    return `M${x} ${y + height * 0.3}h${width}M${x} ${y + height * 0.8}h${width}`;
  const signs = Math.max(1, Math.floor(width / STRIP_STEP));
  const step = width / signs;
  const starts = Array.from({ length: signs }, (_, at) => (x + at * step).toFixed(2));
  if (kind === 'warming_up') {
    const half = (step / 2).toFixed(2);
    const waves = starts.map(() => `q${step / 4} ${-height / 2} ${half} 0t${half} 0`);
    return `M${x} ${y + height / 2}${waves.join('')}`;
  }
  const size = Math.min(step, height) * 0.8;
  return starts
    .map((start) => `M${start} ${y}l${size} ${size}m0 ${-size}l${-size} ${size}`)
    .join('');
}

/** Hatched, either way. Drawn line by line: a pattern makes a printed page ten times as large. */
export function beyondSign(kind: 'over' | 'under', { x, y, width, height }: Box): Markup {
  const lines = Array.from({ length: Math.max(1, Math.floor(width / HATCH_STEP)) }, (_, at) => {
    const slant = Math.min(HATCH_STEP, width);
    const [foot, rise] = kind === 'over' ? [y + height, -height] : [y, height];
    return `M${(x + at * HATCH_STEP).toFixed(2)} ${foot}l${slant.toFixed(2)} ${rise}`;
  });
  return markup`<path class="${kind}" d="${lines.join('')}" stroke="${PRINT.ink}" stroke-width="1.2" />`;
}
