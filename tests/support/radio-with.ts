/** A radio that hears nothing, or can't be used and says why. */
import type { ProblemCode } from '../../protocol/problems.ts';
import type { Source } from '../../server/sources/source.ts';

export function radioWith(problem: ProblemCode | null): Source {
  return {
    id: 'radio',
    start: (sink) =>
      sink.state({
        id: 'radio',
        kind: 'radio',
        name: '',
        phase: problem === null ? 'searching' : 'unavailable',
        sinceMs: Date.now(),
        problem,
        batteryPercent: null,
        signalDbm: null,
        clockRate: 1,
        sensors: [],
      }),
    stop: () => Promise.resolve(),
  };
}
