/** What a rig should manage, and what holds it back. */
import { paFromMicron, type PressureUnit } from '../../protocol/units.ts';
import { sayRoughDuration } from './say-duration.ts';
import { sayNumber } from './say-number.ts';
import { saySetting, settingDigits } from './say-pressure.ts';

export const RIG_WORDS = {
  never: 'never',
  faster:
    'Faster than this rig should manage. Part of the system may not be connected, the sensor may ' +
    'sit at the pump, or the volume is smaller than entered.',
  anAid:
    'An aid, not a promise: reckoned for a dry, tight system with the ballast closed. The water that ' +
    'walls and oil always hold makes the last part many times longer. Faster than expected, part of ' +
    'the system may not be connected.',
  ultimateTooHigh:
    'The pump’s own lowest pressure is no lower than the target: this pump never gets there.',
} as const;

export const CORE_NAMES = { unknown: 'Not known', in: 'In place', out: 'Taken out' } as const;

/** Figures of an invented rig, shown in empty fields, and marked there as examples. */
export function sayExamples(unit: PressureUnit) {
  return {
    volumeM3: 'e.g. 4.2',
    pumpDisplacementM3PerS: 'e.g. 113',
    pumpUltimatePa: `e.g. ${settingDigits(paFromMicron(25), unit)}`,
    pumpBatteryS: 'e.g. 40',
    hoseBoreM: 'e.g. 9.5',
    hoseLengthM: 'e.g. 1.2',
    hoseCount: 'e.g. 1',
  } as const;
}

const PARTS = { pump: 'pump', hose: 'hose', core: 'valve core' } as const;
type Part = keyof typeof PARTS;

const REMEDIES: Readonly<Record<Part, string>> = {
  pump: 'Other hoses would change little.',
  hose: 'A wider or shorter hose, or a second one, helps most.',
  core: 'Taking the cores out helps most.',
};

const MISSING = {
  volumeM3: 'the system’s volume',
  pumpDisplacementM3PerS: 'the pump’s free-air displacement',
  hoseBoreM: 'the hose’s bore',
  hoseLengthM: 'the hose’s length',
} as const;

const ASSUMPTIONS = {
  pumpUltimatePa: 'a pump without a floor of its own',
  hoseCount: 'one hose',
  core: 'cores taken out',
} as const;

/** The depth at which the trade looks whether a pump and its hoses are in order. */
export const FIRST_DEPTH_PA = paFromMicron(1000);

export function sayMissing(fields: readonly (keyof typeof MISSING)[]): string {
  return `No expectation yet. Still missing: ${fields.map((field) => MISSING[field]).join(', ')}.`;
}

export function sayAssumed(fields: readonly (keyof typeof ASSUMPTIONS)[]): string {
  return `Not entered, and taken for it: ${fields.map((field) => ASSUMPTIONS[field]).join(', ')}.`;
}

export function sayExpectedTime(seconds: number | null): string {
  return seconds === null ? 'not within 8 hours' : `about ${sayRoughDuration(seconds)}`;
}

/** '20.6 of the pump’s 113 L/min'. */
export function saySpeed(speedM3PerS: number, pumpM3PerS: number): string {
  return `${litresPerMin(speedM3PerS)} of the pump’s ${litresPerMin(pumpM3PerS)} L/min`;
}

export function sayLimit(part: Part, targetPa: number, unit: PressureUnit): string {
  return `At ${saySetting(targetPa, unit)} the ${PARTS[part]} holds it back most. ${REMEDIES[part]}`;
}

/** 'hose 77 %'. */
export function sayShare(part: Part, share: number): string {
  return `${PARTS[part]} ${Math.round(share * 100)} %`;
}

function litresPerMin(speedM3PerS: number): string {
  return sayNumber(speedM3PerS * 60_000);
}
