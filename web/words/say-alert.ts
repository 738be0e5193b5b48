/** Alerts: they name the value that raised them, and when; and what to do, where there is a thing to do. */
import type { PressureUnit } from '../../protocol/units.ts';
import type { Verdict } from '../analysis/conclusions.ts';
import type { AlertFact } from './alert-fact.ts';
import { sayMoment, sayRoughDuration } from './say-duration.ts';
import { sayPressure, saySetting } from './say-pressure.ts';
import { VERDICT_NAMES } from './say-verdict.ts';

/** `good`: what was waited for. `act`: a thing to do now. `warning`: something is not as it should be. */
export type AlertTone = 'good' | 'act' | 'warning';

export interface AlertWords {
  readonly tone: AlertTone;
  /** Read from two metres. */
  readonly title: string;
  readonly detail: string;
}

/** Beside the title's sign, so that neither colour nor shape has to say it alone. */
export const TONE_WORDS: Readonly<Record<AlertTone, string>> = {
  good: 'Good',
  act: 'Do now',
  warning: 'Warning',
};

export function sayAlert(alert: AlertFact, unit: PressureUnit, rehearsal: boolean): AlertWords {
  const place = `${sayMoment(alert.atS)} into the ${rehearsal ? 'rehearsal' : 'recording'}`;
  switch (alert.kind) {
    case 'target':
      return {
        tone: 'good',
        title: `${saySetting(alert.targetPa, unit)} reached`,
        detail: `The pressure went below ${saySetting(alert.targetPa, unit)} and stayed there, ${place}.`,
      };
    case 'depth':
      return {
        tone: 'act',
        title: `Valve off: ${saySetting(alert.isolateAtPa, unit)} held`,
        detail: `Close the valve first, then stop the pump. Held since ${place}.`,
      };
    case 'levels_off':
      return sayLevelsOff(alert, unit, place);
    case 'ballast_open':
      return {
        tone: 'act',
        title: 'Close the gas ballast',
        detail: `It still stands open, ${place}; the pump goes deeper without it.`,
      };
    case 'pump_battery':
      return sayPumpBattery(alert.leftS, alert.needsS);
    case 'verdict':
      return {
        tone: alert.verdict === 'tight_dry' ? 'good' : 'warning',
        title: `Verdict: ${SHORT_VERDICTS[alert.verdict]}`,
        detail: `${VERDICT_NAMES[alert.verdict]}. Drawn ${place}.`,
      };
    case 'verdict_changed':
      return sayChange(alert.verdict, alert.before, place);
    case 'vacuum_lost':
      return {
        tone: 'warning',
        title: 'The vacuum is being lost',
        detail:
          `From ${sayPressure(alert.fromPa, unit)} ${upTo(alert.toPa, unit)}, ${place}. ` +
          'Do not rely on the pass: shut what was last opened. If the sensor is off the system already, ' +
          'only its hose fills.',
      };
    case 'sensor_battery':
      return {
        tone: 'warning',
        title: `Sensor’s battery at ${Math.round(alert.percent)}\u00a0%`,
        detail: `${named(alert.sensor)} may fall silent before the hold is over. Charge or change it now.`,
      };
    case 'sensor_lost':
      return {
        tone: 'warning',
        title: `${named(alert.sensor)} is silent`,
        detail: `Last heard ${place}. Nothing is watched until it is back: bring this screen nearer.`,
      };
    case 'sensor_back':
      return {
        tone: 'good',
        title: `${named(alert.sensor)} is heard again`,
        detail: `Since ${place}.`,
      };
    case 'bridge_lost':
      return {
        tone: 'warning',
        title: 'This screen hears nothing',
        detail: `The bridge does not answer, since ${place}. If that lasts, start it with: npm start.`,
      };
    case 'bridge_back':
      return {
        tone: 'good',
        title: 'The bridge answers again',
        detail: `Since ${place}. What was recorded meanwhile is here.`,
      };
    case 'device_battery':
      return {
        tone: 'warning',
        title: `This screen’s battery at ${Math.round(alert.percent)}\u00a0%`,
        detail: 'Plug it in: once it is off, it calls nobody.',
      };
  }
}

function sayLevelsOff(
  { targetPa, floorPa }: Extract<AlertFact, { kind: 'levels_off' }>,
  unit: PressureUnit,
  place: string,
): AlertWords {
  const where = floorPa === null ? '' : ` near ${sayPressure(floorPa, unit)}`;
  return {
    tone: 'warning',
    title: `Levelling off above ${saySetting(targetPa, unit)}`,
    detail: `It stays${where} if nothing is changed, since ${place}. The likely causes stand below.`,
  };
}

function sayPumpBattery(leftS: number, needsS: number | null): AlertWords {
  const left = leftS > 0 ? `about ${sayRoughDuration(leftS)} left` : 'as good as empty';
  return {
    tone: 'act',
    title: 'The pump’s battery won’t last',
    detail:
      needsS === null
        ? `It is ${left}. Valve off before it stops, then change it.`
        : `It has ${left}, the depth takes about ${sayRoughDuration(needsS)} more. Valve off before you change it.`,
  };
}

/** What can be read from afar in a line; the whole name stands below it. */
const SHORT_VERDICTS: Readonly<Record<Verdict, string>> = {
  tight_dry: 'tight and dry',
  moisture: 'moisture',
  leak: 'leak',
  leak_and_moisture: 'leak and moisture',
  undecided: 'undecided',
};

function sayChange(verdict: Verdict, before: Verdict | null, place: string): AlertWords {
  return {
    tone: verdict === 'tight_dry' ? 'good' : 'warning',
    title:
      verdict === 'undecided'
        ? 'Verdict withdrawn: undecided'
        : `Verdict now: ${SHORT_VERDICTS[verdict]}`,
    detail: `Since ${place}.${sayBefore(before)}`,
  };
}

function sayBefore(before: Verdict | null): string {
  if (before === null) return '';
  if (before === 'tight_dry') return ' It was tight and dry: do not close up on it.';
  return ` Before: ${VERDICT_NAMES[before]}.`;
}

function upTo(pressurePa: number | null, unit: PressureUnit): string {
  return pressurePa === null ? 'beyond the sensor’s range' : `to ${sayPressure(pressurePa, unit)}`;
}

function named(sensor: string): string {
  return sensor === '' ? 'The sensor' : sensor;
}
