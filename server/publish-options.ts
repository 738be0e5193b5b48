/** Options of `npm start` that have to do with an office of more than one van. */
import { vanSchema } from '../protocol/van-topics.ts';
import { OptionsError } from './options-error.ts';
import {
  type BrokerAddress,
  brokerAddress,
  BrokerOptionsError,
} from './vans/broker/broker-address.ts';

export interface PublishOptions {
  readonly address: BrokerAddress;
  readonly van: string;
  readonly withRehearsals: boolean;
  readonly withPeople: boolean;
}

const TEXT = { type: 'string' } as const;
const FLAG = { type: 'boolean' } as const;

export const PUBLISH_OPTIONS = {
  publish: TEXT,
  van: TEXT,
  'broker-login': TEXT,
  'broker-ca': TEXT,
  'without-tls': FLAG,
  'with-rehearsals': FLAG,
  'with-people': FLAG,
} as const;

export const PUBLISH_HELP = `
For an office with more than one van:
  --publish URL         publish to this broker: mqtts://HOST or mqtts://HOST:PORT
  --van NAME            what this van is called there: letters a to z, digits and hyphens
  --broker-login FILE   two lines: user name, password; or EBBLINE_BROKER_USER and EBBLINE_BROKER_PASSWORD
  --broker-ca FILE      certificates of the authority that signed the broker's, where the system does not know it
  --without-tls         mqtt:// is meant, though the broker is on another computer
  --with-rehearsals     publish rehearsals too, marked as such
  --with-people         publish people's names (the sheet's, and sign-offs) too
`;

interface Values {
  readonly publish?: string | undefined;
  readonly van?: string | undefined;
  readonly 'broker-login'?: string | undefined;
  readonly 'broker-ca'?: string | undefined;
  readonly 'without-tls'?: boolean | undefined;
  readonly 'with-rehearsals'?: boolean | undefined;
  readonly 'with-people'?: boolean | undefined;
}

/**
 * @returns null where nothing is to be published
 * @throws OptionsError
 */
export function readPublishOptions(values: Values): PublishOptions | null {
  const { publish, van } = values;
  if (publish === undefined) {
    const idle = [
      'van',
      'broker-login',
      'broker-ca',
      'without-tls',
      'with-rehearsals',
      'with-people',
    ] as const;
    const given = idle.find((name) => values[name] !== undefined);
    if (given === undefined) return null;
    throw new OptionsError(`--${given} says nothing without --publish mqtts://HOST:PORT`);
  }
  if (van === undefined) throw new OptionsError('--publish needs --van NAME as well');
  if (!vanSchema.safeParse(van).success) {
    throw new OptionsError(
      `--van is "${van}", but a van's name has letters a to z, digits and hyphens, 40 at most: van-7`,
    );
  }
  return {
    address: readAddress(publish, values),
    van,
    withRehearsals: values['with-rehearsals'] ?? false,
    withPeople: values['with-people'] ?? false,
  };
}

function readAddress(url: string, values: Values): BrokerAddress {
  try {
    return brokerAddress('--publish', {
      url,
      loginFile: values['broker-login'],
      authorityFile: values['broker-ca'],
      withoutTls: values['without-tls'] ?? false,
    });
  } catch (error) {
    if (!(error instanceof BrokerOptionsError)) throw error;
    throw new OptionsError(error.message, { cause: error });
  }
}
