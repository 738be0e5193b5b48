/** Drawn cases are the same in each run, so that what fails is the changed code and not another draw. */
import fc from 'fast-check';

fc.configureGlobal({ seed: 20_250 });
