/**
 * How a pull-down departs from what the rig should manage: slower from the start, parting company at a plateau,
 * heading for a floor that is too high, or at a standstill for one of these reasons. Pure, and rather silent than wrong: bounds are wide, and all are ours.
 *
 * It sees what is expected of the rig, and so may never be part of the forecast.
 */
import type { Estimate, Forecast } from '../analysis/conclusions.ts';
import { type ExpectedCurve, pressureAtPa, timeToS } from './expected-pull-down.ts';

export type Deviation =
  /** So many times as long as expected, from the start: hose, core, pump, or the volume as it was entered. */
  | { readonly kind: 'slower'; readonly factor: Estimate }
  /** Gas was pumped as expected, and then water boils. */
  | { readonly kind: 'plateau'; readonly pressurePa: number; readonly sinceS: number }
  /** Oil, an open ballast or a leak hold it up. */
  | { readonly kind: 'floor'; readonly floorPa: Estimate }
  /** Water, its ice, or a floor: the curve alone does not tell which. */
  | { readonly kind: 'standstill'; readonly pressurePa: number; readonly sinceS: number };

export interface DeviationFacts {
  /** Of this pull-down, in order of time. */
  readonly points: readonly { readonly elapsedS: number; readonly pressurePa: number }[];
  readonly nowS: number;
  /** Where the expected curve begins. */
  readonly startS: number;
  /** Of the end that comes down last. */
  readonly curve: ExpectedCurve;
  /** What the volume may be, as shares of what it is reckoned with. */
  readonly volume: { readonly low: number; readonly high: number };
  readonly forecast: Pick<Forecast, 'outcome' | 'floorPa' | 'causes'> | null;
}

/** Nothing where it goes as expected, or where it can't be told. */
export function deviationsFrom(facts: DeviationFacts): Deviation[] {
  const slower = slowerFrom(facts);
  // What is slow from the start is expected later as well.
  const delay = facts.volume.high * (slower?.factor.high ?? MODEL);
  const held = plateauOf(facts, delay) ?? floorOf(facts, delay) ?? standstillOf(facts, delay);
  return [slower, held].filter((deviation) => deviation !== null);
}

/** Below it gauges, hoses and moist walls do as they like. */
const GAS_PA = { low: 2000, high: 50_000 };
/** A mark comes some seconds late, and a sensor full of oil follows ten seconds late. */
const START_S = 20;
/** What lumps, bends and fittings may make of a curve. */
const MODEL = 1.15;
/** No less than this is named. */
const NAMED = 1.3;
/** The same factor all the way, not one that grows without end, as with a pump that has stopped or water that boils. */
const STEADY = 1.6;
const LEAST_POINTS = 3;
/** Seen over a fall by so much at least: what the sensor saw only the end of may have stood still before. */
const LEAST_FALL = 1.5;

function slowerFrom({ points, startS, curve, volume }: DeviationFacts) {
  const first = points.findIndex(({ pressurePa }) => pressurePa < GAS_PA.high);
  const end = points.findIndex(({ pressurePa }) => pressurePa < GAS_PA.low);
  const gas = points.slice(first, end === -1 ? points.length : end);
  const latest = points.at(-1);
  if (first === -1 || gas.length < LEAST_POINTS || latest === undefined) return null;
  const factors = gas.flatMap(({ elapsedS, pressurePa }) => {
    const expectedS = timeToS(curve, pressurePa);
    if (expectedS === null) return [];
    const tookS = elapsedS - startS;
    return [
      { low: (tookS - START_S) / expectedS, high: (tookS + START_S) / expectedS, tookS, expectedS },
    ];
  });
  const later = factors.slice(Math.floor(factors.length / 2));
  const [top] = factors;
  const [middle] = later;
  const last = later.at(-1);
  if (top === undefined || middle === undefined || last === undefined) return null;
  if (last.low > STEADY * middle.high || latest.pressurePa > (gas[0]?.pressurePa ?? 0) / LEAST_FALL)
    return null;
  const meanwhile = (last.tookS - top.tookS) / (last.expectedS - top.expectedS);
  if (meanwhile < last.low / STEADY || meanwhile > last.high * STEADY) return null;
  const low = Math.min(...later.map((factor) => factor.low)) / volume.high / MODEL;
  const high = (Math.max(...later.map((factor) => factor.high)) / volume.low) * MODEL;
  if (low < NAMED) return null;
  return { kind: 'slower', factor: { low, estimate: (last.low + last.high) / 2, high } } as const;
}

/** Water that boils stands between where it freezes and what warm metal keeps it at: below, moist walls look like it. */
const BOILING_PA = { low: 650, high: 4300 };
/** So sure the curve has to be that it is water. */
const SURE = 0.6;
/** By now a dry system would stand at less than this share of it. */
const PARTED = 1 / 3;
/** It came down to near this level, and has stayed there. */
const LEVEL = 1.3;
/** For so long at least, and for such a share of the pull-down: moist walls slow it down as well, and let it go on. */
const STAYS_S = 180;
const STAYS_SHARE = 0.4;
const STEADY_LEVEL = 1.08;

function plateauOf({ points, nowS, startS, curve, forecast }: DeviationFacts, delay: number) {
  const [cause] = forecast?.causes ?? [];
  const latest = points.at(-1);
  if (cause?.cause !== 'boil_off' || cause.weight < SURE || latest === undefined) return null;
  const { pressurePa } = latest;
  if (pressurePa < BOILING_PA.low || pressurePa > BOILING_PA.high) return null;
  const expectedPa = pressureAtPa(curve, (nowS - startS) / delay);
  const arrived = points.find((point) => point.pressurePa < LEVEL * pressurePa);
  if (arrived === undefined || expectedPa > PARTED * pressurePa) return null;
  // What rises is no boiling that goes on, but a pump that has stopped, or air.
  const since = points.filter(({ elapsedS }) => elapsedS >= arrived.elapsedS);
  if (pressurePa > STEADY_LEVEL * Math.min(...since.map((point) => point.pressurePa))) return null;
  const staysS = Math.max(STAYS_S, STAYS_SHARE * (nowS - startS));
  if (nowS - arrived.elapsedS < staysS) return null;
  return { kind: 'plateau', pressurePa, sinceS: arrived.elapsedS } as const;
}

/** Higher than any floor of pump and hose in order, and lower than where water boils. */
const FLOOR_PA = { low: 25, high: 350 };
/** So well it has to be known: what moist walls give off still sinks, and its floor is anywhere. */
const KNOWN = 1.4;

function floorOf({ nowS, startS, curve, forecast }: DeviationFacts, delay: number) {
  const floorPa = forecast?.outcome === 'levels_off' ? forecast.floorPa : null;
  const [cause] = forecast?.causes ?? [];
  if (floorPa === null || (cause?.cause !== 'floor' && cause?.cause !== 'ballast')) return null;
  if (floorPa.low < FLOOR_PA.low || floorPa.high > FLOOR_PA.high) return null;
  if (floorPa.high > KNOWN * floorPa.low) return null;
  const expectedPa = pressureAtPa(curve, (nowS - startS) / delay);
  return expectedPa < PARTED * floorPa.low ? ({ kind: 'floor', floorPa } as const) : null;
}

/** Between what a rig in order comes to and where gas is pumped. */
const STANDS_PA = { low: 25, high: 4300 };
/** By a look back over half of the time, which has to be so long and seen so well. */
const STANDS_S = 480;
const LOOKED_BACK = 0.5;
const LEAST_SEEN = 6;
/** It has come down by so little since, and has not risen by so much either. */
const COME_DOWN = 1.1;
const RISEN = 1.05;
const SILENT_S = 30;

function standstillOf({ points, nowS, startS, curve, forecast }: DeviationFacts, delay: number) {
  const latest = points.at(-1);
  const ageS = nowS - startS;
  if (forecast === null || latest === undefined || ageS < STANDS_S) return null;
  const [cause] = forecast.causes;
  const { pressurePa } = latest;
  if (cause?.cause === 'gas' || pressurePa < STANDS_PA.low || pressurePa > STANDS_PA.high)
    return null;
  const since = points.filter(({ elapsedS }) => elapsedS - startS >= LOOKED_BACK * ageS);
  const [back] = since;
  if (back === undefined || since.length < LEAST_SEEN || nowS - latest.elapsedS > SILENT_S)
    return null;
  if (back.pressurePa > COME_DOWN * pressurePa || pressurePa > RISEN * back.pressurePa) return null;
  if (pressureAtPa(curve, ageS / delay) > PARTED * pressurePa) return null;
  return { kind: 'standstill', pressurePa, sinceS: back.elapsedS } as const;
}
