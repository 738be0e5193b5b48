/** What a prepared sheet gave to a job and what not, as a person reads it. */
import { expect, test } from 'vitest';
import { sayLeftOut } from '../../../web/words/say-job.ts';
import { MICRON } from '../../support/english-speech.ts';

test('what a job kept of its own is named; where all was taken over nothing is said', () => {
  expect(sayLeftOut({ site: 'Quay', people: 'Ines' }, MICRON)).toMatch(
    /^Taken over\. This job said already, and keeps as it stands: Site, .*\.$/u,
  );
  expect(sayLeftOut({}, MICRON)).toBe('');
});
