/** Serves a page of a few lines with the real worker, and can be made newer, silent or slow: for what is kept. */
import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { Server } from 'node:http';
import { fileURLToPath } from 'node:url';

const WORKER = fileURLToPath(new URL('../../web/dist/service-worker.js', import.meta.url));
const SCRIPT = 'text/javascript';

export class PretendBridge {
  /** Paths that are taken and never answered. */
  readonly silentOn = new Set<string>();
  readonly #server: Server;
  #version = 1;

  constructor() {
    this.#server = createServer((request, response) => {
      const path = request.url ?? '';
      if (this.silentOn.has(path)) return;
      const file = this.#files()[path];
      if (file === undefined) response.writeHead(404).end();
      else response.writeHead(200, { 'content-type': file.type }).end(file.body);
    });
  }

  listen(): Promise<string> {
    return new Promise((resolve) => {
      this.#server.listen(0, '127.0.0.1', () => {
        const address = this.#server.address();
        const port = typeof address === 'object' && address !== null ? address.port : 0;
        resolve(`http://127.0.0.1:${port}/`);
      });
    });
  }

  /** From now on the page of this version, and nothing of the others. */
  turnTo(version: number): void {
    this.#version = version;
  }

  close(): Promise<void> {
    return new Promise((resolve) => {
      this.#server.close(() => resolve());
      this.#server.closeAllConnections();
    });
  }

  #files(): Readonly<Record<string, { readonly type: string; readonly body: string }>> {
    const [page, part] = [`assets/page-${this.#version}.js`, `assets/part-${this.#version}.js`];
    const list = ['./', page, part];
    return {
      '/': {
        type: 'text/html',
        body: `<!doctype html><title>Page</title><h1>No script</h1><script type="module" src="./${page}"></script>`,
      },
      '/service-worker.js': { type: SCRIPT, body: readFileSync(WORKER, 'utf8') },
      '/kept-files.json': { type: 'application/json', body: JSON.stringify(list) },
      [`/${page}`]: {
        type: SCRIPT,
        body: `document.querySelector('h1').textContent = 'Page ${this.#version}';
          void navigator.serviceWorker.register('./service-worker.js', { updateViaCache: 'none' });
          window.askForPart = async () => (await import('./part-${this.#version}.js')).said;`,
      },
      [`/${part}`]: { type: SCRIPT, body: `export const said = 'Part ${this.#version}';` },
    };
  }
}
