/** Evacuations with nitrogen between them, in words. */
import type { TriplePlan } from '../../protocol/triple-plan.ts';
import { STANDARD_ATMOSPHERE_PA } from '../../protocol/units.ts';
import type { Estimate } from '../analysis/conclusions.ts';
import type { RestedFill } from '../analysis/cycles/evacuation-cycles.ts';
import type { MoistureTrend } from '../analysis/cycles/moisture-trend.ts';
import type { NextCycle, ToldCycle, TripleTold } from '../analysis/cycles/triple-told.ts';
import { sayBetween } from './say-between.ts';
import { sayDuration, sayMoment } from './say-duration.ts';
import { gaugeUnitOf, sayGaugeSetting } from './say-gauge-pressure.ts';
import { sayMagnitude } from './say-magnitude.ts';
import { sayPressure, sayPressureBetween, saySetting } from './say-pressure.ts';
import type { Speech } from './speech.ts';

/** On the job sheet: '4500 micron, 4500 micron, 500 micron'. */
export function sayTriplePlan({ cycles }: TriplePlan, speech: Speech): string {
  if (cycles.length === 0) return speech.wording.sheet.notEntered;
  return cycles.map(({ targetPa }) => saySetting(targetPa, speech)).join(', ');
}

/** 'Evacuation 2 of 3: down to 1500 micron.' */
export function sayNextCycle(next: NextCycle, speech: Speech): string {
  const words = speech.wording.cycles;
  const { kind, number, of, targetPa, holdS, breakToPa } = next;
  const which = words.ofPlan({ number: String(number), of: String(of) });
  switch (kind) {
    case 'pull_down':
      return words.next.pull_down({ which, target: saySetting(targetPa, speech) });
    case 'hold':
      return words.next.hold({ which, length: sayDuration(holdS ?? 0) });
    case 'break': {
      const gauge = { kind: 'gauge', gaugePa: breakToPa - STANDARD_ATMOSPHERE_PA } as const;
      return words.next.break({
        which,
        pressure: sayGaugeSetting(gauge, gaugeUnitOf(speech), speech),
      });
    }
    case 'done':
      return words.next.done({ of: String(of) });
  }
}

/** 'came to 320 micron; target 4500 micron: reached; held 7 min; broken at 410 micron'. */
export function sayCycle(cycle: ToldCycle, speech: Speech): string {
  const words = speech.wording.cycles;
  const { depthPa, endPa, isBroken, planned, waterG } = cycle;
  return [
    depthPa === null ? words.notSeen : words.cameTo({ depth: sayPressure(depthPa, speech) }),
    ...(planned === null
      ? []
      : [
          words.target({
            target: saySetting(planned.targetPa, speech),
            outcome: cycle.hasReached ? words.reached : words.notReached,
          }),
        ]),
    ...sayHeld(cycle, speech),
    ...(isBroken && endPa !== null
      ? [words.brokenAt({ pressure: sayPressure(endPa, speech) })]
      : []),
    ...(cycle.unmarkedFill === 'none' ? [] : [words.notMarked]),
    ...(waterG === null ? [] : [words.water({ amount: sayGrams(waterG, speech) })]),
  ].join('; ');
}

/** Asked of a filling that nobody marked. */
export function sayRestedFill({ atS, restPa }: RestedFill, speech: Speech): string {
  const pressure = sayPressure(restPa, speech);
  return speech.wording.cycles.wasBreak({ at: sayMoment(atS), pressure });
}

function sayHeld({ holds, planned, hasHeld }: ToldCycle, speech: Speech): string[] {
  const words = speech.wording.cycles;
  const heldS = Math.max(0, ...holds.map(({ fromS, toS }) => toS - fromS));
  const length = sayDuration(heldS);
  const askedS = planned?.holdS ?? null;
  if (!hasHeld && askedS !== null) {
    return [words.heldTooShort({ length, asked: sayDuration(askedS) })];
  }
  return heldS > 0 ? [words.held({ length })] : [];
}

/** What all of them together have done. */
export function sayCyclesDone(told: TripleTold, speech: Speech): string[] {
  const words = speech.wording.cycles;
  const { airLeft, waterG, isFlooded, cycles } = told;
  if (cycles.length === 0) return [];
  return [
    ...(airLeft === null || airLeft <= 0
      ? []
      : [words.airLeft({ parts: sayMagnitude(1 / airLeft, speech) })]),
    ...(waterG === null ? [] : [words.waterAll({ amount: sayGrams(waterG, speech) })]),
    ...(isFlooded ? [words.flooded] : []),
  ];
}

export function sayTrend(trend: MoistureTrend, speech: Speech): string[] {
  const { trend: words, unlike } = speech.wording.cycles;
  switch (trend.kind) {
    case 'too_few':
      return [words.too_few];
    case 'unlike':
      return [words.unlike({ why: trend.why.map((why) => unlike[why]).join(', ') })];
    case 'drying':
    case 'same':
    case 'more': {
      const rises = trend.holds.flatMap(({ risenPa }) =>
        risenPa === null ? [] : [sayPressureBetween(risenPa, speech)],
      );
      const said = trend.kind === 'drying' && trend.levelling ? words.levelling : words[trend.kind];
      const length = sayDuration(trend.atS);
      return [said, words.compared({ length, rises: rises.join('; ') })];
    }
  }
}

function sayGrams(grams: Estimate, speech: Speech): string {
  return sayBetween(
    grams,
    (value) => sayMagnitude(value, speech),
    (digits) => `${digits} g`,
    speech,
  );
}
