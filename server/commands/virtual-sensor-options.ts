/** Options of the `virtual-sensor` command. */
import { FLAG, HELP_FLAG, parseOptions, TEXT } from './parse-options.ts';

export interface VirtualSensorOptions {
  readonly list: boolean;
  /** Empty where only the list was asked for. */
  readonly scenario: string;
  readonly seed: number;
  readonly speed: number;
  readonly name: string;
}

/** What is wrong with the command line, in one sentence. */
export class VirtualSensorUsageError extends Error {
  override readonly name = 'VirtualSensorUsageError';
}

const MOST_SPEED = 120;
/** With a space and four digits after it, it fits the 29 characters that a scan response has room for. */
const LONGEST_NAME = 24;

export const VIRTUAL_SENSOR_HELP = `npm run virtual-sensor -- --scenario NAME [--seed N] [--speed N] [--name NAME]
npm run virtual-sensor -- --list

Makes this computer, with its Bluetooth adapter, into a sensor that speaks the profile
(protocol/sensor-profile.md), on a simulated job. Another computer that runs Ebbline connects to it
by real radio: for a class, or for trying range, doors and stairs.

  --scenario NAME  the job; --list names them, without their causes
  --seed N         which of the generated jobs, and which noise: 0 to 4294967295 (1)
  --speed N        the job goes 1 to ${MOST_SPEED} times as fast (1). The sensor's clock doesn't, so every
                   rate that is judged from it is so many times too large: judge at 1
  --name NAME      at most ${LONGEST_NAME} plain letters, digits and signs (Class sensor); four more digits follow
                   it, so that several in one room are told apart
  --list           names the jobs
  --help           this text

A helper works the rig. What he does is written here and not sent: the marks are the trainees' task.
Ctrl+C ends it. Only one central connects at a time, as with most real sensors.

It needs a library that is installed with Ebbline where it can be, and the right to use the adapter:
  Linux    sudo setcap cap_net_raw+eip $(readlink -f $(which node))
           and, while it runs, no other program in the same role: sudo systemctl stop bluetooth,
           then sudo hciconfig hci0 up
  macOS    allow the terminal under Privacy & Security, Bluetooth
  Windows  a second adapter with a WinUSB driver, since Windows keeps its own to itself`;

/**
 * @returns the options, or null where help was asked for
 * @throws VirtualSensorUsageError saying which option is wrong and what it should be
 */
export function readVirtualSensorOptions(argv: readonly string[]): VirtualSensorOptions | null {
  const values = parseOptions(
    argv,
    OPTIONS,
    (message, cause) => new VirtualSensorUsageError(message, { cause }),
  );
  if (values.help) return null;
  const list = values.list ?? false;
  if (!list && (values.scenario ?? '') === '') {
    throw new VirtualSensorUsageError('add --scenario NAME; --list says which there are');
  }
  return {
    list,
    scenario: values.scenario ?? '',
    seed: readNumber('--seed', values.seed ?? '1', 0, 0xffff_ffff),
    speed: readNumber('--speed', values.speed ?? '1', 1, MOST_SPEED),
    name: readName(values.name ?? 'Class sensor'),
  };
}

const OPTIONS = {
  scenario: TEXT,
  seed: TEXT,
  speed: TEXT,
  name: TEXT,
  list: FLAG,
  help: HELP_FLAG,
} as const;

function readNumber(option: string, text: string, least: number, most: number): number {
  const number = /^\d+$/u.test(text) ? Number(text) : NaN;
  if (number >= least && number <= most) return number;
  throw new VirtualSensorUsageError(
    `${option} is "${text}", but must be a whole number from ${least} to ${most}`,
  );
}

/** The libraries count characters where bytes count, so only those that are one byte long are taken. */
function readName(text: string): string {
  if (/^[\x21-\x7e](?:[\x20-\x7e]*[\x21-\x7e])?$/u.test(text) && text.length <= LONGEST_NAME) {
    return text;
  }
  throw new VirtualSensorUsageError(
    `--name is "${text}", but must be 1 to ${LONGEST_NAME} letters without accents, digits and signs`,
  );
}
