/** What a job takes over of a prepared sheet: what it does not say by itself. */
import { expect, test } from 'vitest';
import type { Mark } from '../../../protocol/mark.ts';
import { fieldsTakenOver } from '../../../server/record/prepared-rules.ts';

const PREPARED = { site: 'Quay', targetPa: 40, volumeM3: 0.02 };
const SECOND: Mark = { id: 3, kind: 'job_begun', elapsedS: 500, text: '', madeBy: 'hand' };

test.each([
  ['of a job without entries all of it', 0, [], [], PREPARED],
  [
    'not what was typed later in the job, nor what was left open there on purpose',
    0,
    [],
    [
      { elapsedS: 60, fields: { site: 'Mill' } },
      { elapsedS: 90, fields: { volumeM3: null } },
    ],
    { targetPa: 40 },
  ],
  [
    'whatever another job says',
    500,
    [SECOND],
    [{ elapsedS: 499, fields: { site: 'Mill', targetPa: 30 } }],
    PREPARED,
  ],
  [
    'not what was entered as the job began',
    500,
    [SECOND],
    [{ elapsedS: 500, fields: { site: 'Mill' } }],
    { targetPa: 40, volumeM3: 0.02 },
  ],
])('%s', (_what, elapsedS, marks, entries, taken) => {
  expect(fieldsTakenOver(PREPARED, elapsedS, marks, entries)).toEqual(taken);
});
