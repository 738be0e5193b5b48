/** Reads the options of a command. */
import { parseArgs, type ParseArgsConfig } from 'node:util';

type Options = NonNullable<ParseArgsConfig['options']>;

export const TEXT = { type: 'string' } as const;
export const FLAG = { type: 'boolean' } as const;
export const HELP_FLAG = { ...FLAG, short: 'h' } as const;

/**
 * @param refuse makes the error of a command out of what is wrong with an option
 * @returns the options that were given
 */
export function parseOptions<const O extends Options>(
  argv: readonly string[],
  options: O,
  refuse: (message: string, cause: unknown) => Error,
) {
  try {
    return parseArgs({ args: [...argv], options }).values;
  } catch (error) {
    throw refuse(error instanceof Error ? error.message : String(error), error);
  }
}
