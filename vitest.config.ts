import { defineConfig } from 'vitest/config';
import { SlowestFirst } from './tests/slowest-first.ts';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    // Radio and browser tests share the machine's two cores with everything else.
    testTimeout: 30_000,
    hookTimeout: 60_000,
    // A second, which is the habit, is too short for a page on a busy machine.
    expect: { poll: { timeout: 5000 } },
    // Three on two cores: many of the browser tests wait for a clock. Four were no faster, and a radio test of a
    // flood then met its time limit.
    maxWorkers: 3,
    sequence: { sequencer: SlowestFirst },
  },
});
