/** The tests that are asked whether they notice a change in `protocol`: those that need no bridge, record, radio or browser. */
import { askedTests } from './asked-tests.mjs';

export default askedTests({
  include: [
    'tests/unit/{import,protocol,read-in,sensor,server,typed-in,web}/**/*.test.ts',
    'tests/unit/analysis/{nitrogen/nitrogen-test,verdict/pass-rule}.test.ts',
    'tests/unit/plan/{displacement,internal-volume,volume-draft}.test.ts',
    'tests/house/{readme,sensor-profile}.test.ts',
    'tests/published/{atmosphere,leak-rate,nitrogen,temperature,tube-sizes,units,water}.test.ts',
  ],
  // They write databases, start processes or judge whole jobs: seconds each, for hardly a line of it.
  exclude: [
    'tests/unit/server/{chain,delete-job,kept-cards,malformed-readings,migrations,number-set,one-set-up,record,salvage-of-jobs}.test.ts',
    'tests/unit/web/{alerts-judged,several-sensors}.test.ts',
  ],
});
