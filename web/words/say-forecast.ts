/** The forecast as one sentence with its interval, and what belongs beside it. */
import type { Conclusions, Forecast, Remaining } from '../analysis/conclusions.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import { sayDuration, sayDurationBetween, sayRoughDuration } from './say-duration.ts';
import { sayPressure, sayPressureEstimate, saySetting } from './say-pressure.ts';
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
        detail: [reachedDetail(forecast, conclusions, sheet, units)],
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
        detail: present([
          forecast.floorPa === null
            ? `It would not reach ${target} within eight hours.`
            : `At ${sayPressureEstimate(forecast.floorPa, units.pressure)}; it would not reach ${target}.`,
          since,
        ]),
      };
    case 'too_early':
      return {
        tone: 'calm',
        headline: 'Too early to say when',
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
    return { tone: 'calm', headline: `${target} will be reached`, detail: present([since]) };
  }
  const soonest = `${target} in ${sayRoughDuration(remaining.p10S)} at the soonest`;
  // Where no upper end is known, a middle would promise what nobody knows.
  if (remaining.p90S === null) {
    const boiling = forecast.causes[0]?.cause === 'boil_off';
    return {
      tone: 'calm',
      headline: boiling ? BOILING : soonest,
      detail: boiling
        ? present([`${soonest}. This ends, but without warning: no upper end is known.`, since])
        : present(['No upper end is known.', since]),
    };
  }
  return {
    tone: 'calm',
    headline: `${target} in about ${sayRoughDuration(remaining.p50S)}`,
    detail: present([
      `${capital(sayDurationBetween(remaining.p10S, remaining.p90S))}.`,
      isolationDetail(forecast.remainingToIsolation, sheet, units),
      boilOffDetail(forecast),
      since,
    ]),
  };
}

function present(parts: readonly string[]): string[] {
  return parts.filter((part) => part !== '');
}

function reachedDetail(
  forecast: Forecast,
  conclusions: Conclusions,
  sheet: Sheet,
  units: UnitsOfChoice,
): string {
  const depth = saySetting(sheet.isolateAtPa, units.pressure);
  if (conclusions.isolationDepthReachedS !== null) return `And held below ${depth}.`;
  return isolationDetail(forecast.remainingToIsolation, sheet, units);
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

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
