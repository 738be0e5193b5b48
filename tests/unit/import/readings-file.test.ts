/** A file is taken whole or not at all, and what a reading can't carry is refused by its line. */
import { describe, expect, test } from 'vitest';
import { ReadingsFile } from '../../../server/sources/import/readings-file.ts';
import { unheardReading } from '../../../server/sources/unheard-reading.ts';

const HEADER = 'elapsed_s,pressure_pa,event,temperature_c\n';

const check = (rows: string) => ReadingsFile.check('a.csv', HEADER + rows);

describe('what the profile can carry is exactly what is taken', () => {
  test.each([
    ['pressure_pa', '0,4294967.294,,\n', '0,4294967.295,,\n'],
    ['elapsed_s', '4294967.295,1,,\n', '4294967.296,1,,\n'],
    ['temperature_c', '0,1,,327.67\n', '0,1,,327.68\n'],
    ['temperature_c', '0,1,,-327.67\n', '0,1,,-327.68\n'],
  ])('%s: %j and not %j', async (column, last, beyond) => {
    const [row] = [...(await check(last)).rows()];
    const bytes = () =>
      unheardReading({
        boot: 0,
        sequence: 0,
        uptimeMs: (row?.elapsedS ?? 0) * 1000,
        pressurePa: row?.pressurePa ?? null,
        temperatureC: row?.temperatureC ?? null,
      });
    expect(bytes).not.toThrow();
    await expect(check(`0,5,,\n${beyond}`)).rejects.toMatchObject({
      code: 'bad_readings_file',
      detail: expect.stringMatching(new RegExp(`^line 3: ${column} is .*; is it in `, 'u')),
    });
  });
});

describe('what is not of the format is refused by its line', () => {
  test.each([
    ['a number with a comma', '0,1,,\n1,5,3,,\n', 'line 3: 5 cells under 4 headings'],
    ['a word', '0,1,,\n1,much,,\n', 'line 3: pressure_pa is "much"'],
    ['time that goes back', '5,1,,\n\n4,1,,\n', 'line 4: elapsed_s goes back'],
    ['an unknown event', '0,1,lunch,\n', 'line 2: the event "lunch"'],
    ['nothing', '', 'line 2: there are no readings'],
  ])('%s', async (_what, rows, detail) => {
    await expect(check(rows)).rejects.toMatchObject({
      code: 'bad_readings_file',
      detail: expect.stringContaining(detail),
    });
  });
});

test('line ends of any kind, a byte order mark and an open last line are read alike', async () => {
  const rows = async (text: string) => [...(await ReadingsFile.check('a.csv', text)).rows()];
  const plain = await rows(`${HEADER}0,1,,\n1,2,isolated,\n`);
  expect(plain).toHaveLength(2);
  expect(await rows(`\uFEFF${HEADER}0,1,,\n1,2,isolated,`)).toEqual(plain);
  expect(await rows(`${HEADER}0,1,,\n1,2,isolated,\n`.replaceAll('\n', '\r\n'))).toEqual(plain);
  expect(await rows(`${HEADER}0,1,,\n1,2,isolated,\n`.replaceAll('\n', '\r'))).toEqual(plain);
});

test.each([
  ['roof unit.csv', 'roof unit.csv'],
  ['C:\\jobs\\roof.csv', 'roof.csv'],
  ['../../etc/roof.csv', 'roof.csv'],
  ['a\u202Egnp.csv\n', 'agnp.csv'],
  ['', 'readings.csv'],
  ['𝄞'.repeat(200), '𝄞'.repeat(50)],
  [`x${'𝄞'.repeat(200)}`, `x${'𝄞'.repeat(49)}`],
])('the name %j becomes the title %j', async (name, title) => {
  expect((await ReadingsFile.check(name, `${HEADER}0,1,,\n`)).name).toBe(title);
});
