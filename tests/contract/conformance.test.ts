/** What the `conformance` command says where it can't or need not begin. */
import { afterEach, expect, test, vi } from 'vitest';
import { run } from '../../server/commands/conformance.ts';
import { isConformant, sayResult, saySummary } from '../../server/commands/conformance/words.ts';
import type { Result } from '../../server/commands/conformance/check.ts';
import { RULE_BREAKERS } from '../../simulators/sensor/rule-breakers.ts';
import { saidBy } from '../support/said-by-command.ts';

afterEach(() => {
  vi.restoreAllMocks();
});

const said = (...argv: string[]) => saidBy(run, argv);

test('helps, and names every rule that can be broken', async () => {
  const { out, status } = await said('--help');
  expect(status).toBe(0);
  for (const { name, does } of RULE_BREAKERS) expect(out).toMatch(new RegExp(`${name} +${does}`));
});

test.each([
  [['--name', 'a', '--id', 'b'], 'one of them is enough'],
  [['--virtual', '--name', 'a'], 'leave --name and --id away'],
  [['--breaking', 'mute'], '--virtual only'],
  [['--virtual', '--breaking', 'nothing'], 'none of the rules'],
  [['--vertual'], '--vertual'],
])('%j is refused with what to do', async (argv, expected) => {
  const { error, status } = await said(...argv);
  expect(status).toBe(2);
  expect(error).toContain(expected);
  expect(error).toContain('--help');
});

const check = { id: 'abort', section: '7', level: 'must', what: 'Abort stops a report.' } as const;
const failed: Result = { check, outcome: { kind: 'failed', expected: 'success', came: 'none' } };
const passed: Result = { check, outcome: { kind: 'passed', remark: null } };
const untried: Result = { check, outcome: { kind: 'not_tried', why: 'there is no link' } };

test('says of each check what came of it', () => {
  expect(sayResult(passed)).toBe('passed    must   §7   abort');
  expect(sayResult(untried)).toContain('there is no link');
  expect(sayResult(failed)).toMatch(
    /^FAILED.*\n.*Abort stops.*\n.*expected: success\n.*came: +none$/u,
  );
});

test('sums up: a should that is not met breaks nothing', () => {
  const weak: Result = { ...failed, check: { ...check, level: 'should' } };
  expect(saySummary([passed, failed, untried])).toContain(
    '1 passed, 1 failed, 1 not tried. It breaks',
  );
  expect(saySummary([passed, weak])).toContain('It speaks the profile, and could');
  expect([[passed, failed], [passed, weak], [untried]].map(isConformant)).toEqual([
    false,
    true,
    true,
  ]);
});
