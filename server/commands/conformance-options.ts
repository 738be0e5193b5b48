/** Options of the `conformance` command. */
import { FLAG, HELP_FLAG, parseOptions, TEXT } from './parse-options.ts';
import { RULE_BREAKERS } from '../../simulators/sensor/rule-breakers.ts';

export interface ConformanceOptions {
  readonly name: string | null;
  readonly id: string | null;
  readonly virtual: boolean;
  readonly breaking: string | null;
  readonly json: boolean;
}

/** What is wrong with the command line, in one sentence. */
export class ConformanceUsageError extends Error {
  override readonly name = 'ConformanceUsageError';
}

export const CONFORMANCE_HELP = `npm run conformance -- [--name NAME | --id ID] [--json]
npm run conformance -- --virtual [--breaking RULE] [--json]

Does this sensor speak the profile (protocol/sensor-profile.md)? Connects to it as the bridge does,
tries everything that can be seen from outside, and says of each: passed, failed (what was expected
and what came), or not tried (why), with the section of the document. It takes about a minute.

  --name NAME      the sensor that advertises this name
  --id ID          the sensor with this address (on macOS: the id that the system gives it)
                   without either: the first one that advertises the service
  --virtual        examines a virtual sensor in place of a real one; needs no adapter
  --breaking RULE  that breaks a rule; one of the names below
  --json           one JSON object a line: check, section, level, what, outcome; last the summary
  --help           this text

The exit status is 1 where the sensor breaks what it must do, 2 where it could not be examined, else 0.
Stop the bridge first: a sensor takes one connection. Nothing on the sensor is left changed: another
interval is set for some seconds and set back, and no stored reading is deleted. What needs hands is
not tried: a restart, the end of its range, the battery, a second connection.

Rules that a virtual sensor can be made to break:
${RULE_BREAKERS.map(({ name, does }) => `  ${name.padEnd(23)} ${does}`).join('\n')}`;

/**
 * @returns the options, or null where help was asked for
 * @throws ConformanceUsageError saying which option is wrong and what it should be
 */
export function readConformanceOptions(argv: readonly string[]): ConformanceOptions | null {
  const values = parseOptions(
    argv,
    OPTIONS,
    (message, cause) => new ConformanceUsageError(message, { cause }),
  );
  if (values.help) return null;
  const { name = null, id = null, virtual = false, breaking = null, json = false } = values;
  if (name !== null && id !== null) {
    throw new ConformanceUsageError('--name and --id: one of them is enough');
  }
  if (virtual && (name !== null || id !== null)) {
    throw new ConformanceUsageError('--virtual brings its own sensor: leave --name and --id away');
  }
  if (breaking !== null && !virtual) {
    throw new ConformanceUsageError('--breaking goes with --virtual only');
  }
  if (breaking !== null && !RULE_BREAKERS.some((breaker) => breaker.name === breaking)) {
    throw new ConformanceUsageError(`--breaking is "${breaking}", which is none of the rules`);
  }
  return { name, id, virtual, breaking, json };
}

const OPTIONS = {
  name: TEXT,
  id: TEXT,
  breaking: TEXT,
  virtual: FLAG,
  json: FLAG,
  help: HELP_FLAG,
} as const;
