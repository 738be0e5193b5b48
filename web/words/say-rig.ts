/** What a rig should manage, and what holds it back. */
import { paFromMicron } from '../../protocol/units.ts';
import type { Wording } from './english.ts';
import { sayDuration, sayDurationBetween, sayRoughDuration } from './say-duration.ts';
import { sayExactly, sayNumber } from './say-number.ts';
import { saySetting, settingDigits } from './say-pressure.ts';
import type { Speech } from './speech.ts';

type Part = keyof Wording['rig']['parts'];
type MissingField = keyof Wording['rig']['missing'];
type AssumedField = keyof Wording['rig']['assumptions'];

/** Figures of an invented rig, shown in empty fields, and marked there as examples. */
export function sayExamples(speech: Speech) {
  const example = (figure: string) => speech.wording.rig.example({ figure });
  return {
    volumeM3: example(sayExactly(4.2, speech)),
    pumpDisplacementM3PerS: example(sayExactly(113, speech)),
    pumpUltimatePa: example(settingDigits(paFromMicron(25), speech)),
    pumpBatteryS: example(sayExactly(40, speech)),
    hoseBoreM: example(sayExactly(9.5, speech)),
    hoseLengthM: example(sayExactly(1.2, speech)),
    hoseCount: example(sayExactly(1, speech)),
  } as const;
}

const LITRES_PER_MIN = 60_000;
const COMPARED_S = 20 * 60;

/** The depth at which the trade looks whether a pump and its hoses are in order. */
export const FIRST_DEPTH_PA = paFromMicron(1000);

export function sayMissing(fields: readonly MissingField[], { wording }: Speech): string {
  const names = fields.map((field) => wording.rig.missing[field]);
  return wording.rig.stillMissing({ missing: names.join(', ') });
}

export function sayAssumed(fields: readonly AssumedField[], { wording }: Speech): string {
  const names = fields.map((field) => wording.rig.assumptions[field]);
  return wording.rig.assumed({ assumed: names.join(', ') });
}

/** '20.6 of the pump’s 113 L/min'. */
export function saySpeed(speedM3PerS: number, pumpM3PerS: number, speech: Speech): string {
  const litresPerMin = (m3PerS: number) => sayLitresPerMin(m3PerS, speech);
  return speech.wording.rig.speed({
    speed: litresPerMin(speedM3PerS),
    pump: litresPerMin(pumpM3PerS),
  });
}

export function sayLimit(part: Part, targetPa: number, speech: Speech): string {
  return speech.wording.rig.holdsBack[part]({ pressure: saySetting(targetPa, speech) });
}

/** 'about 25 min, between 20 and 30 min'; 'not within 8 hours'. */
export function sayExpectedRange(
  time: { readonly lowS: number; readonly estimateS: number; readonly highS: number } | null,
  speech: Speech,
): string {
  const { planning, rig } = speech.wording;
  if (time === null) return rig.notInEightHours;
  return planning.time({
    estimate: sayRoughDuration(time.estimateS),
    between: sayDurationBetween(time.lowS, time.highS, speech),
  });
}

/** Time to 1000 micron or to the target in a table. */
export function sayShortTime(seconds: number | null, { wording }: Speech): string {
  if (seconds === null) return wording.rig.notInEightHours;
  // Finer than an estimate deserves, so that one can compare.
  return seconds < COMPARED_S
    ? sayDuration(Math.round(seconds / 5) * 5)
    : sayRoughDuration(seconds);
}

export function sayLitresPerMin(speedM3PerS: number, speech: Speech): string {
  return sayNumber(speedM3PerS * LITRES_PER_MIN, speech);
}

/** 'hose 77 %'. */
export function sayShare(part: Part, share: number, { wording }: Speech): string {
  const percent = String(Math.round(share * 100));
  return wording.rig.share({ part: wording.rig.parts[part], percent });
}
