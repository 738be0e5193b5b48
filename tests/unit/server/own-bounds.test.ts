/** What a file from elsewhere may hold: what can be entered, to the last character, and nothing beyond. */
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { beyondBounds, LONGEST_TEXTS } from '../../../server/record/own-bounds.ts';
import { MIGRATIONS } from '../../../server/record/schema.ts';

/** Four bytes each, which is the most that a character has, and two of those that a schema counts. */
const WIDE = '𝄞';

let record: Database.Database;
beforeEach(() => {
  record = new Database(':memory:');
  // As somebody would have it who wants other types in.
  for (const migration of MIGRATIONS)
    record.exec(migration.replaceAll('STRICT', '').replaceAll(') ,', ')'));
  for (const name of namesOf('trigger')) record.exec(`DROP TRIGGER ${name}`);
  record.exec(`
    INSERT INTO recording VALUES (1, 'sensor', 77, ''), (2, 'rehearsal', 78, 'yard');
    INSERT INTO recording_end VALUES (1, 99);
    INSERT INTO sensor VALUES (1, 1, 0, '{"id":"s0"}');
    INSERT INTO reading VALUES (1, 1, 0, 1, 1, 1000, 0.5, 0.25, NULL, NULL, 'ok');
    INSERT INTO mark VALUES (1, 1, 'note', 3.5, 'drier changed', 'hand');
    INSERT INTO chain_link VALUES (1, 1, 'b|r1', zeroblob(32));
    INSERT INTO tombstone VALUES (1, 1, 9, 1.0, NULL, '4-7', 3, 1);
    INSERT INTO sheet_entry VALUES (1, 1, 5, '{"site":"Quay 4"}');`);
});
afterEach(() => {
  record.close();
});

function namesOf(type: 'table' | 'trigger'): string[] {
  const names = record.prepare('SELECT name FROM sqlite_schema WHERE type = ?').pluck().all(type);
  return z.array(z.string()).parse(names);
}

test('each text of each table has a bound', () => {
  const columns = z.array(z.object({ name: z.string(), type: z.string() }));
  for (const table of namesOf('table')) {
    const texts = columns
      .parse(record.pragma(`table_info(${table})`))
      .filter(({ type }) => type === 'TEXT')
      .map(({ name }) => name);
    expect([table, Object.keys(LONGEST_TEXTS[table] ?? {}).sort()]).toEqual([table, texts.sort()]);
  }
});

test('what can be entered is within them, also in the widest letters', () => {
  record.prepare('UPDATE mark SET text = ?').run(WIDE.repeat(250));
  record.prepare('UPDATE recording SET title = ?').run('é'.repeat(200));
  expect(beyondBounds(record)).toBeNull();
});

describe('not taken', () => {
  test.each([
    [
      'a long note',
      `UPDATE mark SET text = printf('%.*c', 2001, 'x')`,
      'mark.text, where id is 1: a text of 2001 bytes, and at most 2000 can be entered',
    ],
    [
      'a long sheet, of which only the spaces are too many',
      `UPDATE sheet_entry SET fields = fields || printf('%.*c', 2000000, ' ')`,
      /^sheet_entry\.fields, .*: a text of 20000\d\d bytes, and at most 1048576/u,
    ],
    [
      'what a trainee is called',
      `INSERT INTO rehearsal_call VALUES (2, printf('%.*c', 300, 'x'), 'leak', 60, 4)`,
      /^rehearsal_call\.trainee, where recording_id is 2: a text of 300 bytes/u,
    ],
    [
      'links without end',
      `UPDATE tombstone SET links = printf('%.*c', 9000000, '7')`,
      /^tombstone\.links, .*: a text of 9000000 bytes/u,
    ],
    [
      'a hash of another length',
      'UPDATE chain_link SET hash = zeroblob(33)',
      /^chain_link\.hash, .*: 33 bytes that are no hash/u,
    ],
    [
      'a number that is a text',
      `UPDATE reading SET pressure_pa = 'low'`,
      'reading.pressure_pa, where recording_id is 1: a value of the type text',
    ],
    [
      'a time that is a text',
      `UPDATE recording_end SET ended_at_ms = 'noon'`,
      /^recording_end\.ended_at_ms, /u,
    ],
    [
      'a text that is bytes',
      `UPDATE mark SET text = x'00ff'`,
      /^mark\.text, where id is 1: a value of the type blob/u,
    ],
  ])('%s', (_what, change, words) => {
    expect(beyondBounds(record)).toBeNull();
    record.exec(change);
    expect(beyondBounds(record)).toMatch(words);
  });

  test('more marks and entries than a file could bring, however short each is', () => {
    const many = `WITH RECURSIVE n(v) AS (SELECT 2 UNION ALL SELECT v + 1 FROM n WHERE v < 400)
      INSERT INTO mark SELECT v, 2, 'note', 1.0, 'yes', 'hand' FROM n`;
    record.exec(many);
    expect(beyondBounds(record)).toBeNull();
    expect(beyondBounds(record, 40_000)).toMatch(
      /^recording 2: marks, entries .* of 4\d{4} bytes/u,
    );
    // Of each recording by itself.
    record.exec('UPDATE mark SET recording_id = 1 WHERE id > 200');
    expect(beyondBounds(record, 40_000)).toBeNull();
  });
});
