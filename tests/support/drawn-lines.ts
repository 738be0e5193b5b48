/** What a canvas of the page was told to draw since it was last cleared: upright lines, and letters with their place. */
import type { Page } from 'playwright-core';
import { z } from 'zod';

const drawnSchema = z.object({
  uprights: z.array(z.object({ x: z.number(), top: z.number(), bottom: z.number() })),
  words: z.array(
    z.object({ text: z.string(), left: z.number(), right: z.number(), middle: z.number() }),
  ),
});
export type Drawn = z.infer<typeof drawnSchema>;

/** Before the page is opened: a canvas keeps no account of itself. */
export async function keepAccountOfDrawing(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const drawn: Drawn = { uprights: [], words: [] };
    let path: [number, number][][] = [];
    const canvas = CanvasRenderingContext2D.prototype;
    const spy = (
      name: 'beginPath' | 'moveTo' | 'lineTo' | 'stroke' | 'fillText' | 'clearRect',
      note: (given: unknown[], context: CanvasRenderingContext2D) => void,
    ) => {
      Reflect.set(
        canvas,
        name,
        // eslint-disable-next-line @typescript-eslint/unbound-method
        new Proxy(canvas[name], {
          apply: (draw, context, given: unknown[]) => {
            if (context instanceof CanvasRenderingContext2D) note(given, context);
            const answer: unknown = Reflect.apply(draw, context, given);
            return answer;
          },
        }),
      );
    };
    spy('clearRect', () => Object.assign(drawn, { uprights: [], words: [] }));
    spy('beginPath', () => (path = []));
    spy('moveTo', ([x, y]) => path.push([[Number(x), Number(y)]]));
    spy('lineTo', ([x, y]) => path.at(-1)?.push([Number(x), Number(y)]));
    spy('stroke', () => {
      for (const [from, to, ...more] of path) {
        if (from === undefined || to === undefined || more.length > 0 || from[0] !== to[0])
          continue;
        const [top, bottom] = [Math.min(from[1], to[1]), Math.max(from[1], to[1])];
        drawn.uprights.push({ x: from[0], top, bottom });
      }
    });
    spy('fillText', ([text, x, y], context) => {
      const { width } = context.measureText(String(text));
      const left = context.textAlign === 'right' ? Number(x) - width : Number(x);
      drawn.words.push({ text: String(text), left, right: left + width, middle: Number(y) });
    });
    Object.assign(window, { drawnOnCanvas: () => drawn });
  });
}

export async function drawnOnCanvas(page: Page): Promise<Drawn> {
  return drawnSchema.parse(await page.evaluate('window.drawnOnCanvas()'));
}
