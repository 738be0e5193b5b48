/** Lets a page speak the bracketed language, and gathers all that it says. */
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { build } from 'vite';
import { z } from 'zod';
import type { Opening } from './dashboard.ts';

const MODULE = fileURLToPath(new URL('./bracketed.ts', import.meta.url));

/**
 * The file of Spanish is answered by brackets instead, on its way to the page: nothing of this is in
 * the page that people get.
 */
export async function inBrackets(): Promise<Opening> {
  const code = await bundled();
  return {
    // A worker that keeps the page's files would ask for them beside the page.
    context: { locale: 'es-ES', serviceWorkers: 'block' },
    prepare: async (page) => {
      await page.route(/\/assets\/spanish-[^/]*\.js$/u, (route) =>
        route.fulfill({ contentType: 'text/javascript', body: code }),
      );
      await page.addInitScript(recordDrawnText);
    },
  };
}

const bundleSchema = z.array(z.object({ output: z.tuple([z.object({ code: z.string() })]) }));

async function bundled(): Promise<string> {
  const built = await build({
    configFile: false,
    logLevel: 'silent',
    build: { write: false, minify: false, lib: { entry: MODULE, formats: ['es'] } },
  });
  const [bundle] = bundleSchema.parse(built);
  if (bundle === undefined) throw new Error('nothing was bundled');
  return bundle.output[0].code;
}

/** Letters in a canvas are no elements: they are written down as they are drawn. Runs in the page. */
function recordDrawnText(): void {
  const drawn = new Set<string>();
  CanvasRenderingContext2D.prototype.fillText = new Proxy(
    // eslint-disable-next-line @typescript-eslint/unbound-method
    CanvasRenderingContext2D.prototype.fillText,
    {
      apply: (draw, canvas, given: unknown[]) => {
        drawn.add(String(given[0]));
        Reflect.apply(draw, canvas, given);
      },
    },
  );
  Object.assign(window, { drawnText: () => [...drawn] });
}

/** All texts of the page: elements, open or not, and what is read out or shown beside the pointer. */
export async function everythingSaid(page: Page): Promise<string[]> {
  const texts = await page.evaluate(() => {
    const said = [document.title];
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walk.nextNode(); node !== null; node = walk.nextNode()) {
      // Said where nothing of the page runs, in every language at once.
      if (node.parentElement?.closest('noscript') == null) said.push(node.textContent ?? '');
    }
    for (const name of ['title', 'aria-label', 'aria-valuetext', 'placeholder', 'alt']) {
      for (const element of document.querySelectorAll(`[${name}]`)) {
        said.push(element.getAttribute(name) ?? '');
      }
    }
    return said;
  });
  const drawn = z.array(z.string()).parse(await page.evaluate('window.drawnText()'));
  return [...texts, ...drawn];
}
