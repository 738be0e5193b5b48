/** The command line of the bridge, as far as it lets others in. */
import { expect, test } from 'vitest';
import { OptionsError } from '../../../server/options-error.ts';
import { readOptions } from '../../../server/options.ts';

const shareOf = (...argv: string[]) => readOptions(argv, false)?.share;

test('nobody is let in unless that is asked for', () => {
  expect(shareOf()).toBeNull();
  expect(shareOf('--no-share')).toBeNull();
  expect(shareOf('--share')).toEqual({ port: 4443, addresses: [] });
  expect(
    shareOf(
      '--share',
      '--share-port',
      '4500',
      '--share-address',
      '10.0.0.3',
      '--share-address',
      '10.0.0.4',
    ),
  ).toEqual({ port: 4500, addresses: ['10.0.0.3', '10.0.0.4'] });
});

test.each([
  [['--share', '--share-address', 'laptop'], '--share-address is "laptop"'],
  [['--share', '--share-port', '70000'], '--share-port is "70000"'],
  [['--share-port', '4500'], 'say nothing without --share'],
  [['--share-address', '10.0.0.3'], 'say nothing without --share'],
])('%j is said to make no sense', (argv, words) => {
  expect(() => readOptions(argv, false)).toThrow(OptionsError);
  expect(() => readOptions(argv, false)).toThrow(words);
});
