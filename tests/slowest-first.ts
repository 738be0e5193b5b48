/**
 * The order in which test files begin: the slowest folders first, so that the last minutes of a run are not one
 * slow file alone while the other workers have nothing to do. Within a folder it is the runner's own order: the
 * longest of the last run first, and where there was none, the largest.
 */
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** By what they wait for: a radio's clock, a browser, a whole bridge, processes that are killed, many simulated jobs. */
export const SLOWEST_FIRST = [
  'radio',
  'browser',
  'contract',
  'faults',
  'house',
  'unit',
  'published',
] as const;

/** The place of a test file in that order; what is in none of these folders comes last. */
export function placeInOrder(path: string): number {
  const folders = path.replaceAll('\\', '/').split('/');
  const folder = folders[folders.lastIndexOf('tests') + 1];
  const at = SLOWEST_FIRST.findIndex((one) => one === folder);
  return at === -1 ? SLOWEST_FIRST.length : at;
}

export class SlowestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const usual = await super.sort(files);
    // A stable sort keeps the usual order within each folder.
    return usual.sort((a, b) => placeInOrder(a.moduleId) - placeInOrder(b.moduleId));
  }
}
