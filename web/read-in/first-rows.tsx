/** The first rows of a file as they stand in it, with what each column is taken for. */
import { speech } from '../store/speech.ts';
import { sayColumn } from '../words/say-read-in.ts';
import { type Choice, COLUMN_ROLES, type Guess } from './choice.ts';
import { splitFile, type TableLine } from './split-file.ts';

const ROWS = 6;

interface FirstRowsProps {
  readonly text: string;
  readonly guess: Guess;
  readonly choice: Choice;
}

export function FirstRows({ text, guess, choice }: FirstRowsProps) {
  const words = speech.value.wording.readIn;
  const lines = firstLines(text, guess);
  const roleOf = (at: number) => COLUMN_ROLES.find((role) => choice.columns[role] === at);
  const columns = Array.from({ length: guess.width }, (_, at) => at);
  return (
    <div class="first-rows" tabIndex={0} role="region" aria-label={words.title}>
      <table data-testid="first-rows">
        <thead>
          <tr>
            <th scope="col">{words.lineNumber}</th>
            {columns.map((at) => {
              const role = roleOf(at);
              return (
                <th key={at} scope="col" class={role === undefined ? 'unused' : ''}>
                  {sayColumn(guess.headings[at], at, speech.value)}
                  {role !== undefined && <b>{words.columns[role]}</b>}
                </th>
              );
            })}
          </tr>
        </thead>
        <tbody>
          {lines.map(({ lineNumber, cells }) => (
            <tr key={lineNumber}>
              <td>{lineNumber}</td>
              {columns.map((at) => (
                <td key={at} class={roleOf(at) === undefined ? 'unused' : ''}>
                  {cells[at] ?? ''}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function firstLines(text: string, { separator, firstLine }: Guess): TableLine[] {
  const lines: TableLine[] = [];
  for (const line of splitFile(text, separator)) {
    if (line.lineNumber >= firstLine) lines.push(line);
    if (lines.length === ROWS) break;
  }
  return lines;
}
