/** Pressures of a nitrogen test one after the other, as people and documents have them. Gauge pressures. */
import { gaugeFromUnit, type GaugePressure } from './gauge-pressure.ts';
import { PASS_RULES, type PassRule } from './pass-rules.ts';

const MINUTE_S = 60;
const HOUR_S = 3600;

interface NitrogenStep {
  /** Null: the equipment maker's test pressure. */
  readonly pressure: GaugePressure | null;
  readonly leastS: number;
}

export interface NitrogenSteps {
  readonly id: 'usual' | 'ufgs-15741n' | 'ufgs-15182';
  /** Null: common practice, no source. */
  readonly source: PassRule['source'];
  readonly steps: readonly NitrogenStep[];
}

const psi = (value: number) => gaugeFromUnit(value, 'psi');
const bar = (value: number) => gaugeFromUnit(value, 'bar');

export const NITROGEN_STEPS: readonly NitrogenSteps[] = [
  // A gross leak is heard at the first one, before there is much energy in the system.
  {
    id: 'usual',
    source: null,
    steps: [
      { pressure: bar(3), leastS: 5 * MINUTE_S },
      { pressure: bar(10), leastS: 5 * MINUTE_S },
      { pressure: null, leastS: HOUR_S },
    ],
  },
  // 300 psi on the high side and 150 psi on the low side, for two hours.
  {
    id: 'ufgs-15741n',
    source: PASS_RULES['ufgs-15741n'].source,
    steps: [
      { pressure: psi(150), leastS: 2 * HOUR_S },
      { pressure: psi(300), leastS: 2 * HOUR_S },
    ],
  },
  // 24 hours; 0.3 psi for each degree Fahrenheit, which is exact at 144 psi and 70 °F.
  {
    id: 'ufgs-15182',
    source: PASS_RULES['ufgs-15182'].source,
    steps: [{ pressure: null, leastS: 24 * HOUR_S }],
  },
];
