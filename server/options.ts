/** Options of `npm start`. */
import { isIPv4 } from 'node:net';
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
  /** With other screens on the local network; null: not at all. */
  readonly share: ShareOptions | null;
  /** Null: nothing is published. */
  readonly publish: PublishOptions | null;
}

export interface ShareOptions {
  readonly port: number;
  /** Where alone; none: on every local network that this computer is in. */
  readonly addresses: readonly string[];
}

const DEFAULT_PORT = 4180;
const DEFAULT_SHARE_PORT = 4443;

export const HELP = `npm start -- [--port N] [--data FOLDER] [--open | --no-open] [--share] [--publish mqtts://HOST:PORT]

  --port N        port on this machine for the page (${DEFAULT_PORT})
  --data FOLDER   where the record is kept (${envPaths('ebbline', { suffix: '' }).data})
  --open          open the page in the browser (the habit at a terminal)
  --no-open       don't

  --share               let screens on the local network in, over HTTPS, once they are paired (Menu, Second screen)
  --share-port N        port for them (${DEFAULT_SHARE_PORT})
  --share-address A     only there, by an address of this computer; may be given again (all local networks)
${PUBLISH_HELP}`;

/** @returns the options, or null where help was asked for */
export function readOptions(argv: readonly string[], atTerminal: boolean): Options | null {
  const { values } = parse(argv);
  if (values.help) return null;
  return {
    port: readPort('--port', values.port, DEFAULT_PORT),
    dataFolder: values.data ?? envPaths('ebbline', { suffix: '' }).data,
    open: values.open ?? atTerminal,
    share: readShare(values),
    publish: readPublishOptions(values),
  };
}

function readShare(values: ReturnType<typeof parse>['values']): ShareOptions | null {
  const addresses = values['share-address'] ?? [];
  const wrong = addresses.find((address) => !isIPv4(address));
  if (wrong !== undefined) {
    throw new OptionsError(`--share-address is "${wrong}", but it has to be like 192.168.1.20`);
  }
  if (values.share !== true) {
    if (addresses.length === 0 && values['share-port'] === undefined) return null;
    throw new OptionsError('--share-port and --share-address say nothing without --share');
  }
  return { port: readPort('--share-port', values['share-port'], DEFAULT_SHARE_PORT), addresses };
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
        share: { type: 'boolean' },
        'share-port': { type: 'string' },
        'share-address': { type: 'string', multiple: true },
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

function readPort(option: string, text: string | undefined, usual: number): number {
  if (text === undefined) return usual;
  const port = Number(text);
  if (!Number.isInteger(port) || port < 0 || port > 65_535) {
    throw new OptionsError(`${option} is "${text}", but a port is a whole number from 1 to 65535`);
  }
  return port;
}
