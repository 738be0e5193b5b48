/** Options of `npm start`. */
import { parseArgs } from 'node:util';
import envPaths from 'env-paths';
import {
  type PublishOptions,
  PUBLISH_HELP,
  PUBLISH_OPTIONS,
  readPublishOptions,
} from './publish-options.ts';
import { OptionsError } from './options-error.ts';

export interface Options {
  readonly port: number;
  readonly dataFolder: string;
  readonly open: boolean;
  /** Null: nothing is published. */
  readonly publish: PublishOptions | null;
}

const DEFAULT_PORT = 4180;

export const HELP = `npm start -- [--port N] [--data FOLDER] [--open | --no-open]

  --port N        port on this machine for the page (${DEFAULT_PORT})
  --data FOLDER   where the record is kept (${envPaths('ebbline', { suffix: '' }).data})
  --open          open the page in the browser (the habit at a terminal)
  --no-open       don't
${PUBLISH_HELP}`;

/** @returns the options, or null where help was asked for */
export function readOptions(argv: readonly string[], atTerminal: boolean): Options | null {
  const { values } = parse(argv);
  if (values.help) return null;
  return {
    port: readPort(values.port),
    dataFolder: values.data ?? envPaths('ebbline', { suffix: '' }).data,
    open: values.open ?? atTerminal,
    publish: readPublishOptions(values),
  };
}

function parse(argv: readonly string[]) {
  try {
    return parseArgs({
      args: [...argv],
      allowNegative: true,
      options: {
        port: { type: 'string' },
        data: { type: 'string' },
        open: { type: 'boolean' },
        ...PUBLISH_OPTIONS,
        help: { type: 'boolean', short: 'h' },
      },
    });
  } catch (error) {
    throw new OptionsError(error instanceof Error ? error.message : String(error), {
      cause: error,
    });
  }
}

function readPort(text: string | undefined): number {
  if (text === undefined) return DEFAULT_PORT;
  const port = Number(text);
  if (!Number.isInteger(port) || port < 0 || port > 65_535) {
    throw new OptionsError(`--port is "${text}", but a port is a whole number from 1 to 65535`);
  }
  return port;
}
