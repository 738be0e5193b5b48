/** What the chart's cursor says: values at a moment. */
import { type PressureUnit, pressureFromPa } from '../../protocol/units.ts';
import type { CurvePoint } from '../analysis/conclusions.ts';
import { sayBoilingTick } from './say-chart.ts';
import { sayMoment } from './say-duration.ts';
import { sayNumber } from './say-number.ts';
import { pressureDigits, sayPressure } from './say-pressure.ts';
import { STRETCH_WORDS } from './say-stretch.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

/** What a curve shows at a moment. */
interface ShownValue {
  /** Null where nothing was measured; different where a pixel holds several readings. */
  readonly pressurePa: { readonly low: number; readonly high: number } | null;
  readonly unmeasured: 'over_range' | 'under_range' | 'fault' | 'gap' | 'nothing' | 'ahead' | null;
  readonly warmingUp: boolean;
  readonly late: boolean;
}

interface ShownMoment {
  readonly watched: ShownValue;
  readonly beside: readonly (ShownValue & { readonly name: string })[];
  readonly foreseen: CurvePoint | null;
}

/** What the time is counted from. */
export interface CountedFrom {
  readonly sinceS: number;
  readonly event: 'pump_on' | 'valve_off' | 'beginning';
}

export interface CursorWords {
  /** '612 micron', '598 to 641 micron', 'no readings'. */
  readonly pressure: string;
  /** '3:05 after pump on'. */
  readonly since: string;
  /** 'water boils at −17 °C'; empty where no pressure is known. */
  readonly boils: string;
  /** 'roof 590 micron'. */
  readonly beside: readonly string[];
  /** The same without the names. */
  readonly besideValues: readonly string[];
  /** 'came in late'; empty mostly. */
  readonly notes: string;
}

const AFTER: Readonly<Record<CountedFrom['event'], string>> = {
  pump_on: 'after pump on',
  valve_off: 'after valve-off',
  beginning: 'into the recording',
};
const BEFORE: Readonly<Record<CountedFrom['event'], string>> = {
  pump_on: 'before pump on',
  valve_off: 'before valve-off',
  beginning: 'before the recording',
};
const NOTHING = 'nothing measured';
const AHEAD = 'still to come';

export function sayCursor(
  moment: ShownMoment,
  from: CountedFrom,
  units: UnitsOfChoice,
): CursorWords {
  const { watched, beside, foreseen } = moment;
  return {
    pressure:
      foreseen === null
        ? sayShown(watched, units.pressure)
        : `about ${sayPressure(foreseen.midPa, units.pressure)}`,
    since: sayCounted(from),
    boils: sayBoils(watched.pressurePa, units),
    beside: beside.map((value) => `${value.name} ${sayShown(value, units.pressure)}`),
    besideValues: beside.map((value) => sayShown(value, units.pressure)),
    notes: sayNotes(moment, units.pressure),
  };
}

/** For ears: all of it in one line. @param clock the time of day, empty where nobody knows it */
export function sayCursorAloud(words: CursorWords, clock: string): string {
  const { pressure, since, boils, beside, notes } = words;
  return [pressure, since, clock, boils, ...beside, notes].filter((part) => part !== '').join('. ');
}

function sayShown({ pressurePa, unmeasured }: ShownValue, unit: PressureUnit): string {
  if (pressurePa === null) {
    if (unmeasured === 'ahead') return AHEAD;
    return unmeasured === null || unmeasured === 'nothing' ? NOTHING : STRETCH_WORDS[unmeasured];
  }
  const { low, high } = pressurePa;
  const [from, to] = [pressureDigits(low, unit), pressureDigits(high, unit)];
  return from === to ? `${from} ${unit}` : `${from} to ${to} ${unit}`;
}

function sayCounted({ sinceS, event }: CountedFrom): string {
  return isBefore(sinceS)
    ? `${sayMoment(-sinceS)} ${BEFORE[event]}`
    : `${sayMoment(sinceS)} ${AFTER[event]}`;
}

/** Above a column of times. */
export function sayCountedFrom(event: CountedFrom['event']): string {
  return AFTER[event].charAt(0).toUpperCase() + AFTER[event].slice(1);
}

/** '3:05', '\u22120:12' before it. */
export function sayCountedTime(sinceS: number): string {
  return isBefore(sinceS) ? `\u2212${sayMoment(-sinceS)}` : sayMoment(sinceS);
}

/** What is less than half a second away is at the moment itself. */
function isBefore(sinceS: number): boolean {
  return sinceS < -0.5;
}

function sayBoils(pressurePa: ShownValue['pressurePa'], { temperature }: UnitsOfChoice): string {
  if (pressurePa === null) return '';
  const low = sayBoilingTick(pressurePa.low, temperature);
  const high = sayBoilingTick(pressurePa.high, temperature);
  if (low === '' || high === '') return '';
  return `water boils at ${low === high ? low : `${low} to ${high}`}`;
}

function sayNotes({ watched, foreseen }: ShownMoment, unit: PressureUnit): string {
  if (foreseen !== null) {
    const digits = (pa: number) => sayNumber(pressureFromPa(Math.max(0, pa), unit), 2);
    return `forecast: between ${digits(foreseen.lowPa)} and ${digits(foreseen.highPa)}`;
  }
  return [watched.warmingUp ? STRETCH_WORDS.warming_up : '', watched.late ? STRETCH_WORDS.late : '']
    .filter((note) => note !== '')
    .join(', ');
}
