/** What the virtual sensor says in the terminal, for the trainer. */
import { PROBLEMS, type ProblemCode } from '../../protocol/problems.ts';
import type { AdapterEvent } from '../../simulators/sensor/adapter/adapter-host.ts';
import type { Done } from '../../simulators/sensor/played-job.ts';
import { english } from '../../web/words/english.ts';
import { sayPressure } from '../../web/words/say-pressure.ts';
import { speechOf } from '../../web/words/speech-of.ts';

/** The terminal speaks English. */
const IN_MICRON = speechOf('en', { pressure: 'micron', temperature: '°C' });
const IN_PA = speechOf('en', { pressure: 'Pa', temperature: '°C' });

/** '1:02:03' of the job. */
export function sayJobTime(elapsedS: number): string {
  const whole = Math.floor(elapsedS);
  const [hours, minutes, seconds] = [whole / 3600, (whole / 60) % 60, whole % 60].map(Math.floor);
  const two = (number = 0) => String(number).padStart(2, '0');
  return `${hours ?? 0}:${two(minutes)}:${two(seconds)}`;
}

export function sayNow(
  elapsedS: number,
  pressurePa: number | null,
  central: string | null,
): string {
  const pressure =
    pressurePa === null
      ? 'over range'
      : `${sayPressure(pressurePa, IN_MICRON)} (${sayPressure(pressurePa, IN_PA)})`;
  const who = central === null ? 'nobody connected' : `connected: ${central}`;
  return `${sayJobTime(elapsedS)}  ${pressure}, ${who}`;
}

export function sayDone({ kind, elapsedS }: Done): string {
  return `${sayJobTime(elapsedS)}  the helper: ${english.marks.names[kind]} (to be marked by the trainee)`;
}

export function sayAdapterEvent(event: AdapterEvent, name: string): string {
  switch (event.kind) {
    case 'advertising':
      return `"${name}" can be found now.`;
    case 'connected':
      return `Connected: ${event.central}`;
    case 'disconnected':
      return 'The link has ended.';
    case 'unavailable':
      return sayProblem(problemOfState(event.state));
    case 'failed':
      return (
        `The adapter refused: ${event.detail}. Switch Bluetooth off and on, ` +
        'end other programs that use it, and start again.'
      );
  }
}

export function sayProblem(code: ProblemCode): string {
  return `${PROBLEMS[code].meaning} ${PROBLEMS[code].remedy}`;
}

/** No library for the peripheral's role could be loaded. */
export function sayNoLibrary(detail: string): string {
  return (
    'The library that makes a computer into a Bluetooth sensor could not be loaded here. Run ' +
    '"npm install --include=optional" in the folder of Ebbline, with a network, and start again. ' +
    `What was tried: ${detail}`
  );
}

function problemOfState(state: string): ProblemCode {
  if (state === 'unauthorized') return 'no_permission';
  return state === 'unsupported' ? 'no_bluetooth' : 'adapter_off';
}
