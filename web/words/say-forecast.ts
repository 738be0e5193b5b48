/** The forecast as one sentence with its interval, and what belongs beside it. */
import type { Conclusions, Forecast, Remaining } from '../analysis/conclusions.ts';
import type { Sheet } from '../../protocol/sheet.ts';
import { sayDuration, sayDurationBetween, sayRoughDuration } from './say-duration.ts';
import { sayPressure, sayPressureEnds, saySetting } from './say-pressure.ts';
import type { SaidConclusion } from './said-conclusion.ts';
import type { Speech } from './speech.ts';

export function sayForecast(
  forecast: Forecast,
  conclusions: Conclusions,
  sheet: Sheet,
  speech: Speech,
): SaidConclusion {
  const words = speech.wording.forecast;
  const target = saySetting(sheet.targetPa, speech);
  const since = sinceChange(forecast, conclusions, speech);
  switch (forecast.outcome) {
    case 'reached':
      return {
        tone: 'good',
        headline: words.reached({ target }),
        sure: reachedSure(forecast, conclusions, sheet, speech),
        detail: [],
      };
    case 'reaches':
      return sayReaches(forecast, target, sheet, speech, since);
    case 'levels_off':
      return {
        tone: 'warning',
        headline:
          forecast.floorPa === null
            ? words.levelsOffAbove({ target })
            : words.levelsOffNear({ floor: sayPressure(forecast.floorPa.estimate, speech) }),
        sure: forecast.floorPa === null ? '' : sayPressureEnds(forecast.floorPa, speech),
        detail: present([words.notInEightHours({ target }), since]),
      };
    case 'too_early':
      return {
        tone: 'calm',
        headline: words.tooEarly,
        sure: '',
        detail: present([boilOffDetail(forecast, speech), since]),
      };
  }
}

function sayReaches(
  forecast: Forecast,
  target: string,
  sheet: Sheet,
  speech: Speech,
  since: string,
): SaidConclusion {
  const words = speech.wording.forecast;
  const { remaining } = forecast;
  if (remaining === null) {
    return {
      tone: 'calm',
      headline: words.willBeReached({ target }),
      sure: words.whenUnknown,
      detail: present([since]),
    };
  }
  const soonest = words.soonest({ target, time: sayRoughDuration(remaining.p10S) });
  // Where no upper end is known, a middle would promise what nobody knows.
  if (remaining.p90S === null) {
    const boiling = forecast.causes[0]?.cause === 'boil_off';
    return {
      tone: 'calm',
      headline: boiling ? words.boiling : soonest,
      sure: boiling ? soonest : words.noUpperEnd,
      detail: boiling ? present([words.boilingWithoutEnd, since]) : present([since]),
    };
  }
  return {
    tone: 'calm',
    headline: words.reachedIn({ target, time: sayRoughDuration(remaining.p50S) }),
    sure: sayDurationBetween(remaining.p10S, remaining.p90S, speech),
    detail: present([
      isolationDetail(forecast.remainingToIsolation, sheet, speech),
      boilOffDetail(forecast, speech),
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
  speech: Speech,
): string {
  const words = speech.wording.forecast;
  const depth = saySetting(sheet.isolateAtPa, speech);
  if (conclusions.isolationDepthReachedS !== null) return words.andDepth({ depth });
  const { remainingToIsolation: remaining } = forecast;
  if (remaining === null || remaining.p90S === null) return '';
  const between = sayDurationBetween(remaining.p10S, remaining.p90S, speech);
  return words.depthIn({ depth, time: sayRoughDuration(remaining.p50S), between });
}

function isolationDetail(remaining: Remaining | null, sheet: Sheet, speech: Speech): string {
  const words = speech.wording.forecast;
  const depth = saySetting(sheet.isolateAtPa, speech);
  if (remaining === null) return words.depthUnknown({ depth });
  const between = sayDurationBetween(remaining.p10S, remaining.p90S, speech);
  if (remaining.p90S === null) return words.depthSoonest({ depth, between });
  return words.depthAbout({ depth, time: sayRoughDuration(remaining.p50S), between });
}

function boilOffDetail(forecast: Forecast, { wording }: Speech): string {
  return forecast.causes[0]?.cause === 'boil_off' ? wording.forecast.boilingEnds : '';
}

/** A forecast that started afresh says so; one that uses the whole pull-down need not. */
function sinceChange(forecast: Forecast, conclusions: Conclusions, { wording }: Speech): string {
  const { stage, nowS } = conclusions;
  if (stage.name !== 'pull_down' || forecast.sinceS <= stage.sinceS + 1) return '';
  return wording.forecast.sinceChange({ length: sayDuration(nowS - forecast.sinceS) });
}
