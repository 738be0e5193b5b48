/** The page's connection to the bridge, and the source's to the sensor. */
import { type ProblemCode, PROBLEMS } from '../../protocol/problems.ts';
import type { SensorState, SourcePhase, SourceState } from '../../protocol/source-state.ts';

export interface ConnectionWords {
  readonly text: string;
  readonly remedy: string;
}

/** @param since the time of day at which it was lost, already written out */
export function sayConnection(
  phase: 'connecting' | 'catching_up' | 'live' | 'lost',
  since: string,
): ConnectionWords {
  switch (phase) {
    case 'connecting':
      return { text: 'Connecting to the bridge', remedy: '' };
    case 'catching_up':
      return { text: 'Catching up with the record', remedy: '' };
    case 'live':
      return { text: 'Connected', remedy: '' };
    case 'lost':
      return {
        text: `Connection to the bridge lost since ${since}`,
        remedy:
          'The record goes on as long as the bridge runs. This page tries again by itself; ' +
          'if that lasts, start the bridge with: npm start',
      };
  }
}

const PHASES: Readonly<Record<SourcePhase, string>> = {
  starting: 'starting',
  searching: 'looking for a sensor',
  found: 'found, its turn comes',
  connecting: 'connecting',
  live: 'live',
  weak: 'live, weak signal',
  backfilling: 'live, fetching what was missed',
  stale: 'silent',
  lost: 'lost',
  gone: 'out of reach',
  paused: 'paused',
  finished: 'finished',
  unavailable: 'not available',
};

/** A word or two: 'Roof sensor, live'. `since` only where something stopped. */
export function saySource(source: SourceState, sensorName: string, since: string): string {
  const name = sensorName === '' ? nameless(source.phase) : sensorName;
  return `${name}, ${sayPhase(source, since)}`;
}

/** How it is doing: 'live', 'lost since 12:40', 'live, fetching 120 missed readings'. */
export function sayPhase(
  { phase, missedReadings = 0 }: Pick<SensorState, 'phase' | 'missedReadings'>,
  since: string,
): string {
  if (phase === 'backfilling') return `live, fetching ${missedReadings} missed readings`;
  const stopped = phase === 'stale' || phase === 'lost' || phase === 'gone' || phase === 'paused';
  return `${PHASES[phase]}${stopped ? ` since ${since}` : ''}`;
}

/** Until a sensor is found it is the radio that is spoken of; a sensor need not give a name. */
function nameless(phase: SourcePhase): string {
  const none = phase === 'starting' || phase === 'searching' || phase === 'unavailable';
  return none ? 'Bluetooth' : 'Sensor';
}

/** What is wrong and what to do about it; null where nothing is. */
export function sayProblem(problem: ProblemCode | null): ConnectionWords | null {
  if (problem === null) return null;
  return { text: PROBLEMS[problem].meaning, remedy: PROBLEMS[problem].remedy };
}

/** For a page without any recording: what is happening, as a sentence. */
export function saySourceAtRest(phase: SourcePhase | undefined): string {
  switch (phase) {
    case 'searching':
      return 'Looking for a sensor';
    case 'found':
      return 'A sensor is found';
    case 'connecting':
      return 'Connecting to the sensor';
    case 'live':
    case 'weak':
    case 'backfilling':
    case 'stale':
      return 'The sensor is connected; its first reading is awaited';
    case 'lost':
    case 'gone':
      return 'The sensor is not connected';
    case 'unavailable':
      return 'No sensor can be heard';
    case 'starting':
    case 'paused':
    case 'finished':
    case undefined:
      return 'Bluetooth is starting';
  }
}
