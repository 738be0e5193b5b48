/** Which column is which, and how its cells are written: each changeable. */
import { PRESSURE_UNITS, TEMPERATURE_UNITS } from '../../protocol/units.ts';
import { speech } from '../store/speech.ts';
import { sayColumn } from '../words/say-read-in.ts';
import type { Choice, ColumnRole, Guess } from './choice.ts';
import { DECIMALS, TIME_KINDS } from './read-cell.ts';
import { SEPARATORS } from './split-file.ts';

interface ChoiceFormProps {
  readonly guess: Guess;
  readonly choice: Choice;
  readonly choose: (change: Partial<Choice>) => void;
}

export function ChoiceForm({ guess, choice, choose }: ChoiceFormProps) {
  const { columns } = choice;
  const { amounts, readIn: words } = speech.value.wording;
  const column = (role: ColumnRole) => (
    <Pick
      label={words.columns[role]}
      options={Array.from({ length: guess.width }, (_, at) => at)}
      chosen={columns[role]}
      name={(at) => sayColumn(guess.headings[at], at, speech.value)}
      none={role === 'time' || role === 'pressure' ? words.choose : words.none}
      pick={(at) => choose({ columns: { ...columns, [role]: at } })}
    />
  );
  return (
    <div class="choice">
      {column('time')}
      <Pick
        label={words.timeAs}
        options={TIME_KINDS}
        chosen={choice.timeAs}
        name={(kind) => words.timeKinds[kind]}
        none={words.choose}
        pick={(timeAs) => choose({ timeAs })}
      />
      {column('pressure')}
      <Pick
        label={words.pressureIn}
        options={PRESSURE_UNITS}
        chosen={choice.pressureIn}
        name={(unit) => amounts.units[unit]}
        none={words.choose}
        pick={(pressureIn) => choose({ pressureIn })}
      />
      {column('temperature')}
      <Pick
        label={words.temperatureIn}
        options={TEMPERATURE_UNITS}
        chosen={choice.temperatureIn}
        name={(unit) => unit}
        pick={(temperatureIn) => choose({ temperatureIn: temperatureIn ?? choice.temperatureIn })}
      />
      {column('event')}
      <Pick
        label={words.decimal}
        options={DECIMALS}
        chosen={choice.decimal}
        name={(sign) => words.decimals[sign]}
        pick={(decimal) => choose({ decimal: decimal ?? choice.decimal })}
      />
      <Pick
        label={words.separator}
        options={SEPARATORS}
        chosen={choice.separator}
        name={(separator) => words.separators[separator]}
        pick={(separator) => choose({ separator: separator ?? choice.separator })}
      />
    </div>
  );
}

interface PickProps<T> {
  readonly label: string;
  readonly options: readonly T[];
  readonly chosen: T | null;
  readonly name: (option: T) => string;
  /** What stands for no choice, where there may be none. */
  readonly none?: string;
  readonly pick: (option: T | null) => void;
}

function Pick<T>({ label, options, chosen, name, none, pick }: PickProps<T>) {
  const words = speech.value.wording.readIn;
  return (
    <label>
      {label}
      <select
        aria-invalid={chosen === null && none === words.choose}
        value={chosen === null ? '' : String(options.indexOf(chosen))}
        onChange={(event) => {
          const { value } = event.currentTarget;
          pick(value === '' ? null : (options[Number(value)] ?? null));
        }}
      >
        {none !== undefined && <option value="">{none}</option>}
        {options.map((option, at) => (
          <option key={at} value={String(at)}>
            {name(option)}
          </option>
        ))}
      </select>
    </label>
  );
}
