/** Which changes could be made to the code, each at its place. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Instrumenter } from '@stryker-mutator/instrumenter';

const silent = Object.fromEntries(
  ['fatal', 'error', 'warn', 'info', 'debug', 'trace'].flatMap((level) => [
    [level, () => undefined],
    [`is${level[0].toUpperCase()}${level.slice(1)}Enabled`, () => false],
  ]),
);

/**
 * @param {string} project folder
 * @param {readonly string[]} files within it
 * @returns {Promise<string[]>} their places, as in `file.ts:3:10-3:24`; some share one
 */
export async function placesOfMutants(project, files) {
  const instrumenter = new Instrumenter(silent);
  const sources = files.map((name) => ({
    name,
    content: readFileSync(join(project, name), 'utf8'),
    mutate: true,
  }));
  const { mutants } = await instrumenter.instrument(sources, {
    plugins: null,
    excludedMutations: [],
    ignorers: [],
  });
  return mutants.map(({ fileName, location: { start, end } }) => {
    // They count lines from 0 here and from 1 where they are asked for.
    return `${fileName}:${start.line + 1}:${start.column}-${end.line + 1}:${end.column}`;
  });
}
