/** Which changes could be made to the code, and a run that makes only some of them. */
import { readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
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
 * @returns {Promise<{ place: string, name: string }[]>} each with its place, as in `file.ts:3:10-3:24`, which it
 *   may share, and a name that is its own
 */
export async function possibleMutants(project, files) {
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
  return mutants.map((mutant) => {
    const { start, end } = mutant.location;
    // They count lines from 0 here and from 1 where they are asked for.
    const place = `${mutant.fileName}:${start.line + 1}:${start.column}-${end.line + 1}:${end.column}`;
    return { place, name: nameOf(mutant, mutant.fileName) };
  });
}

/**
 * The tool takes places, and would make every change that lies within one: a drawn block would bring all that it holds
 * with it, and the lot would no longer be even. So what was not drawn is taken out of its list.
 * @param {string} project folder
 * @param {ReadonlySet<string>} names
 */
export function makeOnly(project, names) {
  const all = Instrumenter.prototype.instrument;
  Instrumenter.prototype.instrument = async function (...given) {
    const { files, mutants } = await all.apply(this, given);
    const drawn = mutants.filter((mutant) =>
      names.has(nameOf(mutant, relative(project, mutant.fileName).replaceAll('\\', '/'))),
    );
    return { files, mutants: drawn };
  };
  return () => {
    Instrumenter.prototype.instrument = all;
  };
}

function nameOf({ location, mutatorName, replacement }, file) {
  return JSON.stringify([file, location, mutatorName, replacement]);
}
