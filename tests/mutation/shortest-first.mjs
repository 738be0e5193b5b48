/** The order of the test files: the first that notices a change ends its turn, so the short ones begin. */
import { statSync } from 'node:fs';
import { BaseSequencer } from 'vitest/node';

export class ShortestFirst extends BaseSequencer {
  /** @override */
  async sort(files) {
    const cost = new Map(files.map((file) => [file, this.#costOf(file)]));
    return files.sort((a, b) => cost.get(a) - cost.get(b));
  }

  /** What it took the last time, in ms; of one that never ran nothing but its size is known. */
  #costOf({ moduleId, project }) {
    const known = this.ctx.cache.getFileTestResults(
      `${project.name}:${moduleId.slice(project.config.root.length)}`,
    );
    return known?.duration ?? statSync(moduleId).size / 100;
  }
}
