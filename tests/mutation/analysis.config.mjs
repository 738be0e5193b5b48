/** The tests that are asked whether they notice a change in `web/analysis`. */
import { askedTests } from './asked-tests.mjs';

export default askedTests({
  include: [
    'tests/unit/analysis/**/*.test.ts',
    'tests/published/{boiling-plateau,dilution,leak-rate,nitrogen,nonlinear-fit,outgassing,pump-down,rise-fit}.test.ts',
    'tests/unit/web/{due-*,leak-words,next-step,side-by-side,steps}.test.ts',
  ],
  // Their hundreds of curves would be judged anew for each change; what they alone would notice counts as unnoticed.
  exclude: [
    'tests/unit/analysis/**/{*-ensemble,end-of-hold,judged-live,noise-properties,properties,repeat-hold,simulated-jobs,stage-copies}.test.ts',
  ],
});
