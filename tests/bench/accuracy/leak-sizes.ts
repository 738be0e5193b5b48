/** Which true leaks a row of the table is about. */
import { paFromMicron } from '../../../protocol/units.ts';

interface Leaking {
  readonly trueLeakPaPerS: number;
}

const AWAY_PA_PER_S = paFromMicron(1) / 60;
const NO_LEAK_PA_PER_S = AWAY_PA_PER_S / 10;

/** Away from zero: above 1 micron a minute. */
export const isAway = ({ trueLeakPaPerS }: Leaking) => trueLeakPaPerS > AWAY_PA_PER_S;
/** None: below a tenth of that. */
export const isNone = ({ trueLeakPaPerS }: Leaking) => trueLeakPaPerS < NO_LEAK_PA_PER_S;
/** Below 3 micron a minute. */
export const isSmall = ({ trueLeakPaPerS }: Leaking) => trueLeakPaPerS < 3 * AWAY_PA_PER_S;
