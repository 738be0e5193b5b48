/** Builds the bench's page, serves it, and opens it in a browser. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import { tmpdir } from 'node:os';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { CDPSession, Page } from 'playwright-core';
import { build } from 'vite';
import { openBrowser } from '../../support/dashboard.ts';

const PLACE = fileURLToPath(new URL('.', import.meta.url));
const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.css': 'text/css',
};

export interface BenchPage {
  readonly page: Page;
  readonly devtools: CDPSession;
  close(): Promise<void>;
}

export async function openBenchPage(): Promise<BenchPage> {
  const folder = mkdtempSync(join(tmpdir(), 'chart-bench-'));
  await build({
    root: PLACE,
    base: './',
    logLevel: 'warn',
    configFile: false,
    build: { outDir: folder, emptyOutDir: true, target: 'es2022', chunkSizeWarningLimit: 2000 },
  });
  const server = await serve(folder);
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('the bench has no port');
  const browser = await openBrowser();
  const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
  page.on('pageerror', (error) => console.error(error.message));
  await page.goto(`http://127.0.0.1:${address.port}/index.html`);
  return {
    page,
    devtools: await page.context().newCDPSession(page),
    close: async () => {
      await browser.close();
      server.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

function serve(folder: string): Promise<Server> {
  const server = createServer((request, response) => {
    const { pathname } = new URL(request.url ?? '/', 'http://127.0.0.1');
    const type = TYPES[extname(pathname)] ?? 'application/octet-stream';
    try {
      const content = readFileSync(join(folder, pathname));
      response.writeHead(200, { 'content-type': type }).end(content);
    } catch {
      response.writeHead(404).end();
    }
  });
  return new Promise((resolve) => server.listen(0, '127.0.0.1', () => resolve(server)));
}
