/** The page's connection to the bridge, and the source's to the sensor. */
import type { ProblemCode } from '../../protocol/problems.ts';
import type { SensorState, SourcePhase, SourceState } from '../../protocol/source-state.ts';
import type { Speech } from './speech.ts';

export interface ConnectionWords {
  readonly text: string;
  readonly remedy: string;
}

interface Connection {
  readonly phase: 'connecting' | 'catching_up' | 'live' | 'lost';
  /** The bridge answers, and this page does not know its language. */
  readonly otherVersion: boolean;
}

/** @param since the time of day at which it was lost, already written out */
export function sayConnection(
  { phase, otherVersion }: Connection,
  since: string,
  { wording }: Speech,
): ConnectionWords {
  const words = wording.connection;
  if (otherVersion) return { text: words.otherVersion, remedy: words.otherVersionRemedy };
  switch (phase) {
    case 'connecting':
      return { text: words.connecting, remedy: '' };
    case 'catching_up':
      return { text: words.catchingUp, remedy: '' };
    case 'live':
      return { text: words.live, remedy: '' };
    case 'lost':
      return { text: words.lost({ since }), remedy: words.lostRemedy };
  }
}

/** A word or two: 'Roof sensor, live'. `since` only where something stopped. */
export function saySource(
  source: SourceState,
  sensorName: string,
  since: string,
  speech: Speech,
): string {
  const name = sensorName === '' ? nameless(source.phase, speech) : sensorName;
  return `${name}, ${sayPhase(source, since, speech)}`;
}

/** The same of a recording that is over; null where it is not. */
export function sayEnded(isOver: boolean, sensorName: string, speech: Speech): string | null {
  if (!isOver) return null;
  const name = sensorName === '' ? speech.wording.connection.sensor : sensorName;
  return `${name}, ${speech.wording.connection.phases.finished}`;
}

/** Of a sensor that may well be heard, while nothing of it is kept. */
export function sayNotKept(sensorName: string, since: string, { wording }: Speech): string {
  const words = wording.connection;
  const name = sensorName === '' ? words.sensor : sensorName;
  return `${name}, ${words.since({ phase: words.notKept, since })}`;
}

/** How it is doing: 'live', 'lost since 12:40', 'live, fetching 120 missed readings'. */
export function sayPhase(
  { phase, missedReadings = 0 }: Pick<SensorState, 'phase' | 'missedReadings'>,
  since: string,
  { wording }: Speech,
): string {
  const words = wording.connection;
  if (phase === 'backfilling') return words.fetching({ count: missedReadings });
  const stopped = phase === 'stale' || phase === 'lost' || phase === 'gone' || phase === 'paused';
  return stopped ? words.since({ phase: words.phases[phase], since }) : words.phases[phase];
}

/** Until a sensor is found it is the radio that is spoken of; a sensor need not give a name. */
function nameless(phase: SourcePhase, { wording }: Speech): string {
  const none = phase === 'starting' || phase === 'searching' || phase === 'unavailable';
  return none ? wording.connection.bluetooth : wording.connection.sensor;
}

/** What is wrong and what to do about it; null where nothing is. */
export function sayProblem(
  problem: ProblemCode | null,
  { wording }: Speech,
): ConnectionWords | null {
  if (problem === null) return null;
  const { meaning, remedy } = wording.problems[problem];
  return { text: meaning, remedy };
}

/** For a page without any recording: what is happening, as a sentence. */
export function saySourceAtRest(phase: SourcePhase | undefined, { wording }: Speech): string {
  const words = wording.connection.atRest;
  switch (phase) {
    case 'searching':
      return words.searching;
    case 'found':
      return words.found;
    case 'connecting':
      return words.connecting;
    case 'live':
    case 'weak':
    case 'backfilling':
    case 'stale':
      return words.connected;
    case 'lost':
    case 'gone':
      return words.lost;
    case 'unavailable':
      return words.unavailable;
    case 'starting':
    case 'paused':
    case 'finished':
    case undefined:
      return words.starting;
  }
}
