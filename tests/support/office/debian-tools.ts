/** Programs of an office that Debian has as packages: where they are, or what to install. */
import { existsSync, readdirSync } from 'node:fs';
import { createServer } from 'node:net';
import { delimiter, join } from 'node:path';

const POSTGRESQL = '/usr/lib/postgresql';

/** @throws Error saying which package has it */
export function findProgram(name: string, debianPackage: string): string {
  const versions = existsSync(POSTGRESQL) ? readdirSync(POSTGRESQL).sort().reverse() : [];
  const folders = [
    ...(process.env['PATH'] ?? '').split(delimiter),
    '/usr/sbin',
    ...versions.map((version) => join(POSTGRESQL, version, 'bin')),
  ];
  const found = folders.map((folder) => join(folder, name)).find((path) => existsSync(path));
  if (found !== undefined) return found;
  throw new Error(
    `These tests need ${name}. On Debian: sudo apt-get install ${debianPackage}. Elsewhere: install it, and see that it is in the PATH.`,
  );
}

export function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const address = server.address();
      const port = typeof address === 'object' && address ? address.port : 0;
      server.close(() => resolve(port));
    });
  });
}

/** Whether it comes true in time. */
export async function until(
  what: string,
  isSo: () => Promise<boolean> | boolean,
  withinMs = 45_000,
): Promise<void> {
  const beganMs = performance.now();
  for (;;) {
    if (await isSo()) return;
    if (performance.now() - beganMs > withinMs)
      throw new Error(`not within ${withinMs} ms: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 25));
  }
}
