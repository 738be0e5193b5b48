/** Options of the `collect` command. */
import {
  type BrokerAddress,
  brokerAddress,
  BrokerOptionsError,
} from '../vans/broker/broker-address.ts';
import { FLAG, HELP_FLAG, parseOptions, TEXT } from './parse-options.ts';

export interface CollectOptions {
  readonly address: BrokerAddress;
  /** Undefined: as the environment says. */
  readonly database: string | undefined;
}

/** What is wrong with the command line, in one sentence. */
export class CollectUsageError extends Error {
  override readonly name = 'CollectUsageError';
}

export const COLLECT_HELP = `npm run --silent collect -- --broker URL [--broker-login FILE] [--broker-ca FILE] [--without-tls] [--database URL]

Collects what all vans publish into a PostgreSQL database, each reading exactly once, until it is stopped. It brings
the database's tables along. One collector for a broker and a database is enough, and only one is let in.

  --broker URL         mqtts://HOST or mqtts://HOST:PORT
  --broker-login FILE  two lines: user name, password; or EBBLINE_BROKER_USER and EBBLINE_BROKER_PASSWORD
  --broker-ca FILE     certificates of the authority that signed the broker's, where the system does not know it
  --without-tls        mqtt:// is meant, though the broker is on another computer
  --database URL       postgresql://HOST/DATABASE; without it as PGHOST, PGDATABASE and PGUSER say. Its password
                       comes from PGPASSWORD or a .pgpass file
  --help               this text`;

/**
 * @returns the options, or null where help was asked for
 * @throws CollectUsageError saying which option is wrong and what it should be
 */
export function readCollectOptions(argv: readonly string[]): CollectOptions | null {
  const values = parseOptions(
    argv,
    {
      broker: TEXT,
      'broker-login': TEXT,
      'broker-ca': TEXT,
      'without-tls': FLAG,
      database: TEXT,
      help: HELP_FLAG,
    },
    (message, cause) => new CollectUsageError(message, { cause }),
  );
  if (values.help) return null;
  if (values.broker === undefined)
    throw new CollectUsageError('--broker is missing: mqtts://HOST:PORT');
  return {
    address: readAddress({
      url: values.broker,
      loginFile: values['broker-login'],
      authorityFile: values['broker-ca'],
      withoutTls: values['without-tls'] ?? false,
    }),
    database: values.database === undefined ? undefined : withoutPassword(values.database),
  };
}

function readAddress(wishes: Parameters<typeof brokerAddress>[1]): BrokerAddress {
  try {
    return brokerAddress('--broker', wishes);
  } catch (error) {
    if (!(error instanceof BrokerOptionsError)) throw error;
    throw new CollectUsageError(error.message, { cause: error });
  }
}

function withoutPassword(url: string): string {
  if (!/^postgres(ql)?:\/\//u.test(url))
    throw new CollectUsageError(`--database is "${url}", but begins with postgresql://`);
  if (/^[^/]*\/\/[^/@]*:[^/@]*@/u.test(url) || /[?&]password=/u.test(url)) {
    throw new CollectUsageError(
      '--database has a password in it, where everybody on this computer can read it: use PGPASSWORD or a .pgpass file',
    );
  }
  return url;
}
