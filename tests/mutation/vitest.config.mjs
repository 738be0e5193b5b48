/** The tests that are asked whether they notice a changed line: those that need no bridge, radio or browser. */
import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    testTimeout: 120_000,
    include: [
      'tests/unit/{accuracy,analysis,import,physics,plan,protocol,report,sensor,typed-in,web}/**/*.test.ts',
      'tests/published/**/*.test.ts',
    ],
    // Their hundreds of curves would be judged anew for each change; what they alone would notice counts as unnoticed.
    exclude: ['tests/unit/**/*-ensemble.test.ts', 'tests/unit/analysis/simulated-jobs.test.ts'],
  },
});
