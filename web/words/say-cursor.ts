/** What the chart's cursor says: values at a moment. */
import { pressureFromPa } from '../../protocol/units.ts';
import type { CurvePoint } from '../analysis/conclusions.ts';
import { sayBoilingTick } from './say-chart.ts';
import { sayMoment } from './say-duration.ts';
import { sayNumber } from './say-number.ts';
import { pressureDigits, sayPressure, withUnit } from './say-pressure.ts';
import type { Speech } from './speech.ts';

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

export function sayCursor(moment: ShownMoment, from: CountedFrom, speech: Speech): CursorWords {
  const { watched, beside, foreseen } = moment;
  const { about } = speech.wording.amounts;
  return {
    pressure:
      foreseen === null
        ? sayShown(watched, speech)
        : about({ amount: sayPressure(foreseen.midPa, speech) }),
    since: sayCounted(from, speech),
    boils: sayBoils(watched.pressurePa, speech),
    beside: beside.map((value) => `${value.name} ${sayShown(value, speech)}`),
    besideValues: beside.map((value) => sayShown(value, speech)),
    notes: sayNotes(moment, speech),
  };
}

/** For ears: all of it in one line. @param clock the time of day, empty where nobody knows it */
export function sayCursorAloud(words: CursorWords, clock: string): string {
  const { pressure, since, boils, beside, notes } = words;
  return [pressure, since, clock, boils, ...beside, notes].filter((part) => part !== '').join('. ');
}

function sayShown({ pressurePa, unmeasured }: ShownValue, speech: Speech): string {
  const { amounts, chart } = speech.wording;
  if (pressurePa === null) {
    if (unmeasured === 'ahead') return chart.cursor.ahead;
    return unmeasured === null || unmeasured === 'nothing'
      ? chart.cursor.nothing
      : chart.stretches[unmeasured];
  }
  const low = pressureDigits(pressurePa.low, speech);
  const high = pressureDigits(pressurePa.high, speech);
  return low === high
    ? withUnit(low, speech)
    : amounts.fromTo({ low, high: withUnit(high, speech) });
}

function sayCounted({ sinceS, event }: CountedFrom, { wording }: Speech): string {
  const { before, after } = wording.chart.cursor;
  return isBefore(sinceS)
    ? before[event]({ time: sayMoment(-sinceS) })
    : after[event]({ time: sayMoment(sinceS) });
}

/** '3:05', '\u22120:12' before it. */
export function sayCountedTime(sinceS: number): string {
  return isBefore(sinceS) ? `\u2212${sayMoment(-sinceS)}` : sayMoment(sinceS);
}

/** What is less than half a second away is at the moment itself. */
function isBefore(sinceS: number): boolean {
  return sinceS < -0.5;
}

function sayBoils(pressurePa: ShownValue['pressurePa'], speech: Speech): string {
  if (pressurePa === null) return '';
  const { amounts, chart } = speech.wording;
  const low = sayBoilingTick(pressurePa.low, speech);
  const high = sayBoilingTick(pressurePa.high, speech);
  if (low === '' || high === '') return '';
  const temperature = low === high ? low : amounts.fromTo({ low, high });
  return chart.cursor.boilsAt({ temperature });
}

function sayNotes({ watched, foreseen }: ShownMoment, speech: Speech): string {
  const { cursor, stretches } = speech.wording.chart;
  if (foreseen !== null) {
    const digits = (pa: number) =>
      sayNumber(pressureFromPa(Math.max(0, pa), speech.units.pressure), speech, 2);
    return cursor.forecast({ low: digits(foreseen.lowPa), high: digits(foreseen.highPa) });
  }
  return [watched.warmingUp ? stretches.warming_up : '', watched.late ? stretches.late : '']
    .filter((note) => note !== '')
    .join(', ');
}
