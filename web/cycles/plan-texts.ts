/** The plan of several evacuations between what people type, in their units, and the exact fact: pure. */
import { gaugeFromUnit, inGaugeUnit } from '../../protocol/gauge-pressure.ts';
import {
  type TriplePlan,
  triplePlanSchema,
  type TriplePlanSource,
} from '../../protocol/triple-plan.ts';
import { pressureFromPa, pressureToPa, STANDARD_ATMOSPHERE_PA } from '../../protocol/units.ts';
import { numberFrom, pressureNumberFrom, unmistakable } from '../typed-in/typed-number.ts';
import { gaugeUnitOf } from '../words/say-gauge-pressure.ts';
import { sayExactly } from '../words/say-number.ts';
import type { Speech } from '../words/speech.ts';

export interface PlanTexts {
  readonly from: TriplePlanSource;
  readonly cycles: readonly { readonly depth: string; readonly holdMin: string }[];
  readonly breakTo: string;
}

const MINUTE_S = 60;

export function textsFromPlan({ from, cycles, breakToPa }: TriplePlan, speech: Speech): PlanTexts {
  const { pressure } = speech.units;
  const plain = (value: number, digits: number) =>
    sayExactly(Number(value.toPrecision(digits)), speech);
  const breakTo = inGaugeUnit(breakToPa - STANDARD_ATMOSPHERE_PA, gaugeUnitOf(speech));
  return {
    from,
    cycles: cycles.map(({ targetPa, holdS }) => ({
      depth: unmistakable(plain(pressureFromPa(targetPa, pressure), 6), pressure),
      holdMin: holdS === null ? '' : plain(holdS / MINUTE_S, 4),
    })),
    breakTo: plain(breakTo, 4),
  };
}

/** Null where it can't be. */
export function planFromTexts(
  { from, cycles, breakTo }: PlanTexts,
  speech: Speech,
): TriplePlan | null {
  const { pressure } = speech.units;
  const gauge = gaugeFromUnit(numberFrom(breakTo) ?? 0, gaugeUnitOf(speech));
  const read = {
    from,
    cycles: cycles.map(({ depth, holdMin }) => {
      const [typed, minutes] = [pressureNumberFrom(depth, pressure), numberFrom(holdMin)];
      return {
        targetPa: typed === null ? null : pressureToPa(typed, pressure),
        holdS: minutes === null ? null : minutes * MINUTE_S,
      };
    }),
    breakToPa: STANDARD_ATMOSPHERE_PA + gauge.gaugePa,
  };
  const parsed = triplePlanSchema.safeParse(read);
  return parsed.success ? parsed.data : null;
}
