/** Which broker, and how it is known and logged in at: from options, files and the environment. Never a password in argv. */
import { readFileSync, statSync } from 'node:fs';

export interface BrokerAddress {
  readonly host: string;
  readonly port: number;
  /** Whether the connection is encrypted and the broker's certificate looked at. */
  readonly secure: boolean;
  /** Certificates of the authority that signed the broker's, PEM; null: those that the system knows. */
  readonly authority: string | null;
  readonly login: BrokerLogin | null;
}

interface BrokerLogin {
  readonly user: string;
  readonly password: string;
}

/** As they stand in the options. */
export interface BrokerWishes {
  readonly url: string;
  readonly loginFile: string | undefined;
  readonly authorityFile: string | undefined;
  /** Whether somebody said that no encryption is wanted. */
  readonly withoutTls: boolean;
}

/** What is wrong with the options that name a broker, in one sentence. */
export class BrokerOptionsError extends Error {
  override readonly name = 'BrokerOptionsError';
}

const USUAL_PORTS = { 'mqtt:': 1883, 'mqtts:': 8883 } as const;
const LOOPBACK = /^(localhost|127(\.\d{1,3}){3}|\[::1\])$/u;
const USER_VARIABLE = 'EBBLINE_BROKER_USER';
const PASSWORD_VARIABLE = 'EBBLINE_BROKER_PASSWORD';

/**
 * @param option the option in which the address stands, for what is said of it
 * @throws BrokerOptionsError
 */
export function brokerAddress(
  option: string,
  { url, loginFile, authorityFile, withoutTls }: BrokerWishes,
  environment: Readonly<Record<string, string | undefined>> = process.env,
): BrokerAddress {
  const { protocol, hostname, port, username, password, pathname } = readUrl(option, url);
  if (protocol !== 'mqtt:' && protocol !== 'mqtts:')
    throw new BrokerOptionsError(`${option} is "${url}", but begins with mqtts://`);
  if (username !== '' || password !== '') {
    throw new BrokerOptionsError(
      `${option} has a user name or password in it, where everybody on this computer can read it: put them into a file, see --broker-login`,
    );
  }
  if (hostname === '' || (pathname !== '' && pathname !== '/'))
    throw new BrokerOptionsError(`${option} is "${url}", but should be mqtts://HOST:PORT`);
  const secure = protocol === 'mqtts:';
  if (!secure && !withoutTls && !LOOPBACK.test(hostname)) {
    throw new BrokerOptionsError(
      `${option} is "${url}", which anybody on the way could read and change: write mqtts://, or add --without-tls if you know the whole way`,
    );
  }
  return {
    host: hostname.replace(/^\[(.*)\]$/u, '$1'),
    port: port === '' ? USUAL_PORTS[protocol] : Number(port),
    secure,
    authority: authorityFile === undefined ? null : readAuthority(authorityFile),
    login: loginFile === undefined ? loginFrom(environment) : readLogin(loginFile),
  };
}

function readUrl(option: string, url: string): URL {
  try {
    return new URL(url);
  } catch (error) {
    throw new BrokerOptionsError(`${option} is "${url}", but should be mqtts://HOST:PORT`, {
      cause: error,
    });
  }
}

function readAuthority(file: string): string {
  const text = readText('--broker-ca', file);
  if (text.includes('-----BEGIN CERTIFICATE-----')) return text;
  throw new BrokerOptionsError(
    `--broker-ca is "${file}", but there is no certificate in it (PEM: -----BEGIN CERTIFICATE-----)`,
  );
}

function readLogin(file: string): BrokerLogin {
  const text = readText('--broker-login', file);
  if (process.platform !== 'win32' && (statSync(file).mode & 0o077) !== 0) {
    throw new BrokerOptionsError(
      `--broker-login is "${file}", which others on this computer can read: chmod 600 "${file}"`,
    );
  }
  const [user = '', password = '', ...rest] = text.split(/\r?\n/u);
  if (user !== '' && password !== '' && rest.every((line) => line === ''))
    return { user, password };
  throw new BrokerOptionsError(
    `--broker-login is "${file}", but should have two lines: the user name, and the password`,
  );
}

function readText(option: string, file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch (error) {
    throw new BrokerOptionsError(`${option} is "${file}", which can't be read: ${String(error)}`, {
      cause: error,
    });
  }
}

function loginFrom(environment: Readonly<Record<string, string | undefined>>): BrokerLogin | null {
  const user = environment[USER_VARIABLE] ?? '';
  const password = environment[PASSWORD_VARIABLE] ?? '';
  if (user === '' && password === '') return null;
  if (user !== '' && password !== '') return { user, password };
  throw new BrokerOptionsError(
    `${user === '' ? USER_VARIABLE : PASSWORD_VARIABLE} is missing in the environment: the other one is there`,
  );
}
