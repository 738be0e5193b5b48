/** The results as a person reads them at a terminal. */
import type { Found } from './find-sensor.ts';
import type { Result } from './check.ts';

export function sayFound({ name, id }: Found): string {
  return `Examining ${name === null ? 'a sensor without a name' : `"${name}"`} (${id}) …`;
}

export function sayResult({ check, outcome }: Result): string {
  const head = (word: string): string =>
    `${word.padEnd(9)} ${check.level.padEnd(6)} ${`§${check.section}`.padEnd(4)} ${check.id}`;
  const indented = (lines: readonly string[]): string =>
    lines.map((line) => `\n          ${line}`).join('');
  switch (outcome.kind) {
    case 'passed':
      return head('passed') + (outcome.remark === null ? '' : `: ${outcome.remark}`);
    case 'not_tried':
      return head('not tried') + indented([outcome.why]);
    case 'failed':
      return (
        head('FAILED') +
        indented([check.what, `expected: ${outcome.expected}`, `came:     ${outcome.came}`])
      );
  }
}

export function saySummary(results: readonly Result[]): string {
  const failed = results.filter(({ outcome }) => outcome.kind === 'failed');
  const broken = failed.filter(({ check }) => check.level === 'must').length;
  const passed = results.filter(({ outcome }) => outcome.kind === 'passed').length;
  const left = results.length - passed - failed.length;
  const counts = `${passed} passed, ${failed.length} failed, ${left} not tried`;
  if (broken > 0) return `${counts}. It breaks the profile in ${broken} of what it must do.`;
  const rest = failed.length > 0 ? ', and could do more of what it should' : '';
  return `${counts}. It speaks the profile${rest}, as far as was tried.`;
}

/** Whether all that it must do was right, or could not be tried. */
export function isConformant(results: readonly Result[]): boolean {
  return !results.some(({ check, outcome }) => check.level === 'must' && outcome.kind === 'failed');
}
