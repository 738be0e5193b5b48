/** Why the curve is as it is: the cause, what in the curve speaks for it, the check that tells. */
import { boilingPointC, TRIPLE_POINT_PA } from '../../protocol/water.ts';
import type { Cause, Conclusions, Estimate } from '../analysis/conclusions.ts';
import { sayPressure, sayPressureBetween } from './say-pressure.ts';
import { sayTemperature } from './say-temperature.ts';
import type { Speech } from './speech.ts';

export interface CauseWords {
  readonly name: string;
  readonly evidence: string;
  readonly check: string;
}

/** The least that the boiling temperature is given for: far below what sensors of the trade resolve. */
const FAINTEST_PA = 0.01;

/** What of the present curve a cause is told by. */
export interface CauseFacts {
  /** Where water boils at the present pressure, °C; null where that is not known. */
  readonly boilingPointC: number | null;
  readonly pressurePa: number | null;
  readonly floorPa: Estimate | null;
}

export function causeFacts({ pressurePa, forecast }: Conclusions): CauseFacts {
  const boils = pressurePa === null || pressurePa < FAINTEST_PA ? null : boilingPointC(pressurePa);
  return {
    boilingPointC: forecast?.boilingPointC ?? boils,
    pressurePa,
    floorPa: forecast?.floorPa ?? null,
  };
}

export function sayCause(cause: Cause, facts: CauseFacts, speech: Speech): CauseWords {
  const words = speech.wording.causes;
  switch (cause) {
    case 'gas':
      return words.gas;
    case 'boil_off':
      return { ...words.boilOff, evidence: sayBoiling(facts, speech) };
    case 'slow_tail':
      return words.slowTail;
    case 'ballast':
      return words.ballast;
    case 'floor':
      return { ...words.floor, evidence: sayLevel(facts, speech) };
    case 'wet_oil':
      return words.wetOil;
    case 'rising':
      return words.rising;
    case 'sensor':
      return words.sensor;
  }
}

/** 'At 380 micron water boils at −27 °C: …'. */
function sayBoiling({ boilingPointC: boilsC, pressurePa }: CauseFacts, speech: Speech): string {
  const words = speech.wording.causes.boilOff;
  if (boilsC === null || pressurePa === null) {
    return words.lingers({ triplePoint: sayPressure(TRIPLE_POINT_PA, speech) });
  }
  return words.lingersAt({
    pressure: sayPressure(pressurePa, speech),
    temperature: sayTemperature(boilsC, speech),
  });
}

function sayLevel({ floorPa }: CauseFacts, speech: Speech): string {
  const words = speech.wording.causes.floor;
  return floorPa === null
    ? words.evidence
    : words.evidenceAt({ level: sayPressureBetween(floorPa, speech) });
}

/** In brackets behind the cause's name. Weights are no more exact than these words. */
export function sayLikelihood(weight: number, { wording }: Speech): string {
  const words = wording.causes.likelihood;
  if (weight >= 0.7) return words.mostLikely;
  if (weight >= 0.4) return words.likely;
  return weight >= 0.15 ? words.possible : words.lessLikely;
}
