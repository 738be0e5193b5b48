import { expect, test } from 'vitest';
import { PROBLEMS } from '../../../protocol/problems.ts';
import type { SourceState } from '../../../protocol/source-state.ts';
import { Terminal } from '../../../server/terminal.ts';

test('a problem is said when it begins, and a repeated line once', () => {
  const lines: string[] = [];
  const terminal = new Terminal((line) => lines.push(line));
  const state = (problem: SourceState['problem']): SourceState => ({
    id: 'radio',
    kind: 'radio',
    name: '',
    phase: 'searching',
    sinceMs: 0,
    problem,
    batteryPercent: null,
    signalDbm: null,
    clockRate: 1,
    sensors: [],
  });
  for (const problem of ['no_adapter', 'no_adapter', null, 'no_adapter'] as const) {
    terminal.state(state(problem));
  }
  for (const line of ['a', 'a', 'b']) terminal.log(line);
  const said = `${PROBLEMS.no_adapter.meaning} ${PROBLEMS.no_adapter.remedy}`;
  expect(lines).toEqual([said, said, 'a', 'b']);
});
