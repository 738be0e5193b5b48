/** As what else a rise that nobody marked may be read. */
import type { StageName } from '../conclusions.ts';
import type { Trace } from './trace.ts';

/** Sooner there is nothing to say, s. */
const LEAST_S = 60;
/** A rise of less than that, in ln P, could as well be something on the pump's side … */
const SMALL_RISE = 0.03;
/**
 * … and so could one that has come to rest: a ballast that was opened or a pump that slows lifts the
 * pressure to another floor, within some V/S, and there it stays. What a closed system gives off or
 * lets in goes on. At rest: the latter two thirds have added less than this part of it.
 */
const REST_SHARE = 0.12;

/**
 * @param sinceS when the rise began
 * @returns the likelier first; with `pull_down` among them it is not sure that a valve was closed. The
 * pump may always have stopped: behind its own valve that looks the same.
 */
export function alternativesOfRise(trace: Trace, sinceS: number, nowS: number): StageName[] {
  const lengthS = nowS - sinceS;
  const first = trace.firstAfter(sinceS);
  const last = trace.firstAfter(nowS);
  const third = trace.firstAfter(sinceS + lengthS / 3);
  if (lengthS < LEAST_S || third - first < 3 || last - third < 6) return ['pump_stopped'];
  const { perS, mean } = trace.line(third, last);
  const lastS = (2 / 3) * lengthS;
  const risen = mean + (perS * lastS) / 2 - trace.log(first);
  const isAtRest = perS * lastS < REST_SHARE * risen;
  return risen < SMALL_RISE || isAtRest ? ['pull_down', 'pump_stopped'] : ['pump_stopped'];
}
