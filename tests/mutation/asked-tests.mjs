/** How tests run here: in one thread that reads each module once, the short ones first. */
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { ShortestFirst } from './shortest-first.mjs';

/** @param {{ include: string[], exclude: string[] }} which */
export function askedTests({ include, exclude }) {
  return defineConfig({
    test: {
      include,
      exclude,
      isolate: false,
      setupFiles: [fileURLToPath(new URL('same-cases.mjs', import.meta.url))],
      testTimeout: 120_000,
      sequence: { sequencer: ShortestFirst },
    },
  });
}
