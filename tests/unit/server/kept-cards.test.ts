/** Of a job that was deleted for good nothing is left in the file of the list either, nor in its log. */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import type { JobCard } from '../../../protocol/job-card.ts';
import { CardFile } from '../../../server/jobs/kept-cards.ts';

let folder = '';
let file: CardFile;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'cards-'));
  file = new CardFile(folder, '1');
});
afterEach(() => {
  file.close();
  rmSync(folder, { recursive: true, force: true });
});

const isAnywhere = (text: string): boolean =>
  readdirSync(folder).some((name) => readFileSync(join(folder, name)).includes(text));

const card = (beginMark: number, site: string): JobCard => ({
  recordingId: 1,
  beginMark,
  origin: 'sensor',
  simulated: false,
  startedAtMs: 1,
  fromS: 0,
  lastS: 9,
  running: false,
  title: '',
  site,
  equipment: '',
  sensors: [],
  archived: true,
  signedBy: null,
  outcomes: null,
});

test('when a recording goes', () => {
  file.keep({ recordingId: 1, facts: 3, cards: [card(0, 'Ropewalk 7')] });
  expect(isAnywhere('Ropewalk 7')).toBe(true);
  file.forget(1);
  expect(isAnywhere('Ropewalk 7')).toBe(false);
});

test('when one of its jobs goes, and the other one’s card stays', () => {
  file.keep({ recordingId: 1, facts: 3, cards: [card(0, 'Ropewalk 7'), card(5, 'Weir 2')] });
  file.keep({ recordingId: 1, facts: 4, cards: [card(5, 'Weir 2')] });
  expect(isAnywhere('Ropewalk 7')).toBe(false);
  expect(isAnywhere('Weir 2')).toBe(true);
  expect(file.all()[0]?.cards).toHaveLength(1);
});
