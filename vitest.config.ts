import { defineConfig } from 'vitest/config';
import { LONG_FILES } from './tests/long-files.ts';
import { SlowestFirst } from './tests/slowest-first.ts';

/**
 * Each of these files has a process of its own: radios, bridges, and the modules and functions that they replace; and
 * what goes by how much memory its process holds.
 */
const APART = ['tests/{radio,contract}/**/*.test.ts', 'tests/unit/radio/central.test.ts'];
/** Those that are left out where nobody asked for the long ones: `tests/run.mjs` says so. */
const LEFT_OUT = process.env['LEAVE_LONG_TESTS_OUT'] === 'yes' ? [...LONG_FILES] : [];

export default defineConfig({
  test: {
    // Radio and browser tests share the machine's two cores with everything else.
    testTimeout: 30_000,
    hookTimeout: 60_000,
    // A second, which is the habit, is too short for a page on a busy machine.
    expect: { poll: { timeout: 5000 } },
    // Three on two cores: many of the browser tests wait for a clock. Four were no faster, and a radio test of a
    // flood then met its time limit.
    maxWorkers: 3,
    sequence: { sequencer: SlowestFirst },
    projects: [
      { extends: true, test: { name: 'apart', include: APART, exclude: LEFT_OUT } },
      {
        extends: true,
        // Loading the same modules for each file anew took as long as the tests.
        test: {
          name: 'together',
          include: ['tests/**/*.test.ts'],
          // The packages of the mutation tool are its own, and so are the copies that it changes.
          exclude: [...APART, ...LEFT_OUT, 'tests/{mutation,output}/**'],
          isolate: false,
        },
      },
    ],
  },
});
