/** Saves what the chart shows as a file. */
import { type CaptionedFigure, captionedFigure } from '../figure/captioned.ts';
import { dayAndTime } from '../parts/clock-words.ts';
import { sayCaption, sayFileName } from '../words/say-export.ts';
import type { ChartPicture } from './chart-picture.ts';
import { figureFrom } from './figure-from.ts';

/** Pixels per unit of the figure: some 1500 across, as a phone's screen or half a page wants. */
const SCALE = 2;

export function saveSvg(picture: ChartPicture): void {
  const { svg } = figureOf(picture);
  save(new Blob([svg], { type: 'image/svg+xml' }), sayFileName(picture.about, 'svg'));
}

/** @throws Error where the browser can't draw it */
export async function savePng(picture: ChartPicture): Promise<void> {
  save(await pngOf(figureOf(picture)), sayFileName(picture.about, 'png'));
}

function figureOf(picture: ChartPicture): CaptionedFigure {
  const { time, speech, about, startedAtMs, bounds } = picture;
  // What is foreseen has no time of day yet.
  const [fromS, toS] = [Math.max(0, time.fromS), Math.min(time.toS, bounds.latestS)];
  const clock =
    startedAtMs === null
      ? null
      : {
          from: dayAndTime(startedAtMs + fromS * 1000, speech),
          to: dayAndTime(startedAtMs + toS * 1000, speech),
        };
  const caption = sayCaption(about, { fromS, toS, clock }, speech);
  return captionedFigure(figureFrom(picture), caption);
}

async function pngOf({ svg, width, height }: CaptionedFigure): Promise<Blob> {
  const image = new Image();
  // As an address of its own: the page's security policy allows such pictures.
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
  await image.decode();
  const canvas = document.createElement('canvas');
  canvas.width = width * SCALE;
  canvas.height = height * SCALE;
  const context = canvas.getContext('2d');
  context?.drawImage(image, 0, 0, canvas.width, canvas.height);
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
  if (blob === null) throw new Error('no picture came out of the canvas');
  return blob;
}

function save(blob: Blob, name: string): void {
  const address = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // Some browsers begin to read it only after this turn.
  window.setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
