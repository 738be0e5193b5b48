/** Which paper is usual where a language is spoken. */
import { expect, test } from 'vitest';
import { usualPaper } from '../../../web/store/paper.ts';

test.each([
  [['en-US', 'en'], 'Letter'],
  [['es-MX'], 'Letter'],
  [['en', 'en-CA'], 'Letter'],
  [['en-GB', 'en-US'], 'A4'],
  [['es-ES'], 'A4'],
  [['zh-Hant-TW'], 'A4'],
  // Latin America has both.
  [['es-419'], 'A4'],
  [['en'], 'A4'],
  [[], 'A4'],
])('%j: %s', (languages, paper) => {
  expect(usualPaper(languages)).toBe(paper);
});
