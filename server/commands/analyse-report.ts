/** Conclusions in the words and units of the `analyse` command's output. */
import type {
  Conclusions,
  Estimate,
  Forecast,
  Rise,
  Stage,
} from '../../web/analysis/conclusions.ts';

/** What stands in a file's line beside its name. */
export function reportLine({ stage, forecast, rise }: Conclusions) {
  return rise
    ? { stage: 'rise', forecast: null, rise: riseReport(rise) }
    : { stage: 'pulldown', forecast: forecastReport(forecast, stage), rise: null };
}

function forecastReport(forecast: Forecast | null, stage: Stage) {
  if (!forecast) {
    return { outcome: 'too_early', remaining_s: null, floor_pa: null, reason: stage.name };
  }
  const { outcome, remaining, floorPa, causes } = forecast;
  return {
    outcome,
    remaining_s: remaining && { p10: remaining.p10S, p50: remaining.p50S, p90: remaining.p90S },
    floor_pa: floorPa?.estimate ?? null,
    reason: causes[0]?.cause ?? stage.name,
  };
}

function riseReport(rise: Rise) {
  const { leakRatePaM3PerS: rate } = rise;
  return {
    verdict: rise.verdict,
    leak_pa_per_s: interval(rise.leakPaPerS),
    moisture_pa: interval(rise.moisturePa),
    changeover_s: rise.changeoverS,
    end_of_hold_pa: { at_s: rise.endOfHold.atS, ...interval(rise.endOfHold) },
    more_s: rise.moreS,
    ...(rate === null ? {} : { leak_rate_pa_m3_per_s: interval(rate) }),
  };
}

function interval({ estimate, low, high }: Estimate) {
  return { estimate, low, high };
}
