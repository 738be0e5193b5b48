import { expect, test } from 'vitest';
import { isInDoubt } from '../../../web/alerts/in-doubt.ts';
import { VERDICTS } from '../../../protocol/verdicts.ts';

const AT = { atS: 600, sinceS: 0 };
const PASS = { ...AT, kind: 'verdict', verdict: 'tight_dry' } as const;

test('a pass is in doubt as soon as the hold is judged otherwise', () => {
  for (const verdict of VERDICTS) {
    expect(isInDoubt(PASS, { verdict })).toBe(verdict !== 'tight_dry');
    const again = { ...PASS, kind: 'verdict_changed', before: 'undecided' } as const;
    expect(isInDoubt(again, { verdict })).toBe(verdict !== 'tight_dry');
  }
});

test('what is no pass, and a pass of a hold that is over, is not', () => {
  expect(isInDoubt({ ...PASS, verdict: 'leak' }, { verdict: 'undecided' })).toBe(false);
  expect(isInDoubt({ ...AT, kind: 'target', targetPa: 66 }, { verdict: 'leak' })).toBe(false);
  expect(isInDoubt(PASS, null)).toBe(false);
});
