/** Which column is which, and how its cells are written: each changeable. */
import { PRESSURE_UNITS, TEMPERATURE_UNITS } from '../../protocol/units.ts';
import {
  COLUMN_NAMES,
  DECIMAL_NAMES,
  READ_IN_WORDS,
  sayColumn,
  SEPARATOR_NAMES,
  TIME_KIND_NAMES,
} from '../words/say-read-in.ts';
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
  const column = (role: ColumnRole) => (
    <Pick
      label={COLUMN_NAMES[role]}
      options={Array.from({ length: guess.width }, (_, at) => at)}
      chosen={columns[role]}
      name={(at) => sayColumn(guess.headings[at], at)}
      none={role === 'time' || role === 'pressure' ? READ_IN_WORDS.choose : READ_IN_WORDS.none}
      pick={(at) => choose({ columns: { ...columns, [role]: at } })}
    />
  );
  return (
    <div class="choice">
      {column('time')}
      <Pick
        label={`${COLUMN_NAMES.time} ${READ_IN_WORDS.as}`}
        options={TIME_KINDS}
        chosen={choice.timeAs}
        name={(kind) => TIME_KIND_NAMES[kind]}
        none={READ_IN_WORDS.choose}
        pick={(timeAs) => choose({ timeAs })}
      />
      {column('pressure')}
      <Pick
        label={`${COLUMN_NAMES.pressure} ${READ_IN_WORDS.unit}`}
        options={PRESSURE_UNITS}
        chosen={choice.pressureIn}
        name={(unit) => unit}
        none={READ_IN_WORDS.choose}
        pick={(pressureIn) => choose({ pressureIn })}
      />
      {column('temperature')}
      <Pick
        label={`${COLUMN_NAMES.temperature} ${READ_IN_WORDS.unit}`}
        options={TEMPERATURE_UNITS}
        chosen={choice.temperatureIn}
        name={(unit) => unit}
        pick={(temperatureIn) => choose({ temperatureIn: temperatureIn ?? choice.temperatureIn })}
      />
      {column('event')}
      <Pick
        label={READ_IN_WORDS.decimal}
        options={DECIMALS}
        chosen={choice.decimal}
        name={(sign) => DECIMAL_NAMES[sign]}
        pick={(decimal) => choose({ decimal: decimal ?? choice.decimal })}
      />
      <Pick
        label={READ_IN_WORDS.separator}
        options={SEPARATORS}
        chosen={choice.separator}
        name={(separator) => SEPARATOR_NAMES[separator]}
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
  return (
    <label>
      {label}
      <select
        aria-invalid={chosen === null && none === READ_IN_WORDS.choose}
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
