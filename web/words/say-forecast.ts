/** The forecast as one sentence with its interval, and what belongs beside it. */
import type { Conclusions, Forecast, Remaining } from '../analysis/conclusions.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import { sayDuration, sayDurationBetween, sayRoughDuration } from './say-duration.ts';
import { sayPressure, sayPressureEnds, saySetting } from './say-pressure.ts';
import type { SaidConclusion } from './said-conclusion.ts';
import type { UnitsOfChoice } from './units-of-choice.ts';

const BOILING = 'Water is boiling off';

export function sayForecast(
  forecast: Forecast,
  conclusions: Conclusions,
  sheet: Sheet,
  units: UnitsOfChoice,
): SaidConclusion {
  const target = saySetting(sheet.targetPa, units.pressure);
  const since = sinceChange(forecast, conclusions);
  switch (forecast.outcome) {
    case 'reached':
      return {
        tone: 'good',
        headline: `${target} reached`,
        sure: reachedSure(forecast, conclusions, sheet, units),
        detail: [],
      };
    case 'reaches':
      return sayReaches(forecast, target, sheet, units, since);
    case 'levels_off':
      return {
        tone: 'warning',
        headline:
          forecast.floorPa === null
            ? `Levels off above ${target}`
            : `Levels off near ${sayPressure(forecast.floorPa.estimate, units.pressure)}`,
        sure: forecast.floorPa === null ? '' : sayPressureEnds(forecast.floorPa, units.pressure),
        detail: present([`It would not reach ${target} within eight hours.`, since]),
      };
    case 'too_early':
      return {
        tone: 'calm',
        headline: 'Too early to say when',
        sure: '',
        detail: present([boilOffDetail(forecast), since]),
      };
  }
}

function sayReaches(
  forecast: Forecast,
  target: string,
  sheet: Sheet,
  units: UnitsOfChoice,
  since: string,
): SaidConclusion {
  const { remaining } = forecast;
  if (remaining === null) {
    return {
      tone: 'calm',
      headline: `${target} will be reached`,
      sure: 'when is not known',
      detail: present([since]),
    };
  }
  const soonest = `${target} in ${sayRoughDuration(remaining.p10S)} at the soonest`;
  // Where no upper end is known, a middle would promise what nobody knows.
  if (remaining.p90S === null) {
    const boiling = forecast.causes[0]?.cause === 'boil_off';
    return {
      tone: 'calm',
      headline: boiling ? BOILING : soonest,
      sure: boiling ? soonest : 'no upper end is known',
      detail: boiling
        ? present(['This ends, but without warning: no upper end is known.', since])
        : present([since]),
    };
  }
  return {
    tone: 'calm',
    headline: `${target} in about ${sayRoughDuration(remaining.p50S)}`,
    sure: sayDurationBetween(remaining.p10S, remaining.p90S),
    detail: present([
      isolationDetail(forecast.remainingToIsolation, sheet, units),
      boilOffDetail(forecast),
      since,
    ]),
  };
}

function present(parts: readonly string[]): string[] {
  return parts.filter((part) => part !== '');
}

function reachedSure(
  forecast: Forecast,
  conclusions: Conclusions,
  sheet: Sheet,
  units: UnitsOfChoice,
): string {
  const depth = saySetting(sheet.isolateAtPa, units.pressure);
  if (conclusions.isolationDepthReachedS !== null) return `and ${depth}, to valve off at`;
  const { remainingToIsolation: remaining } = forecast;
  return remaining === null || remaining.p90S === null
    ? ''
    : `${depth} in about ${sayRoughDuration(remaining.p50S)}, ${sayDurationBetween(remaining.p10S, remaining.p90S)}`;
}

function isolationDetail(remaining: Remaining | null, sheet: Sheet, units: UnitsOfChoice): string {
  const depth = saySetting(sheet.isolateAtPa, units.pressure);
  if (remaining === null)
    return `When ${depth}, the depth to valve off at, is reached is not known yet.`;
  const between = sayDurationBetween(remaining.p10S, remaining.p90S);
  if (remaining.p90S === null) return `${depth}, the depth to valve off at: ${between}.`;
  return `${depth}, the depth to valve off at, in about ${sayRoughDuration(remaining.p50S)}, ${between}.`;
}

function boilOffDetail(forecast: Forecast): string {
  const first = forecast.causes[0];
  if (first?.cause !== 'boil_off') return '';
  return `${BOILING}: this ends, but without warning.`;
}

/** A forecast that started afresh says so; one that uses the whole pull-down need not. */
function sinceChange(forecast: Forecast, conclusions: Conclusions): string {
  const { stage, nowS } = conclusions;
  if (stage.name !== 'pull_down' || forecast.sinceS <= stage.sinceS + 1) return '';
  return `From the last ${sayDuration(nowS - forecast.sinceS)}, since something changed.`;
}
