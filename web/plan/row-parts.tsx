/** What every list of rows has: fields with their names, a row taken out, a row added. */
import type { ComponentChildren } from 'preact';
import { speech } from '../store/speech.ts';

interface RowListProps<Row> {
  readonly list: string;
  readonly title: string;
  readonly rows: readonly Row[];
  readonly fresh: Row;
  readonly change: (rows: readonly Row[]) => void;
  readonly row: (row: Row, put: (part: Partial<Row>) => void) => ComponentChildren;
}

export function RowList<Row>({ list, title, rows, fresh, change, row }: RowListProps<Row>) {
  const words = speech.value.wording.planning.volume;
  return (
    <fieldset class={`row-list of-${list}`} data-testid={`rows-${list}`}>
      <legend>{title}</legend>
      {rows.map((one, at) => (
        <div key={at} class="row-fields">
          {row(one, (part) =>
            change(rows.map((other, place) => (place === at ? { ...other, ...part } : other))),
          )}
          <button
            type="button"
            aria-label={words.remove({ what: `${title} ${at + 1}` })}
            onClick={() => change(rows.filter((_, place) => place !== at))}
          >
            <span aria-hidden="true">×</span>
          </button>
        </div>
      ))}
      <button type="button" data-testid={`add-${list}`} onClick={() => change([...rows, fresh])}>
        {words.add({ what: title })}
      </button>
    </fieldset>
  );
}

interface ChooseProps<T extends string> {
  readonly name: string;
  readonly field?: string;
  readonly options: readonly T[];
  readonly chosen: string;
  readonly label: (option: T) => string;
  readonly pick: (option: T) => void;
  /** By names, which may be longer than a list that is closed can show. */
  readonly isNamed?: boolean;
}

/** Longer than what a phone shows of a closed list. */
const LONG_NAME = 34;

export function Choose<T extends string>(props: ChooseProps<T>) {
  const { name, field, options, chosen, label, pick, isNamed = false } = props;
  const shown = options.find((option) => option === chosen);
  const said = shown === undefined ? '' : label(shown);
  return (
    <label class={isNamed ? 'named-choice' : ''}>
      {name}
      <select
        name={field}
        value={chosen}
        onChange={({ currentTarget: { value } }) => {
          const picked = options.find((option) => option === value);
          if (picked !== undefined) pick(picked);
        }}
      >
        {options.map((option) => (
          <option key={option} value={option}>
            {label(option)}
          </option>
        ))}
      </select>
      {isNamed && said.length > LONG_NAME && <span class="whole-name">{said}</span>}
    </label>
  );
}

interface TypeProps {
  readonly name: string;
  readonly value: string;
  readonly isNumber?: boolean;
  readonly type: (text: string) => void;
}

export function Type({ name, value, isNumber = true, type }: TypeProps) {
  return (
    <label>
      {name}
      <input
        inputMode={isNumber ? 'decimal' : 'text'}
        autoComplete="off"
        maxLength={60}
        value={value}
        onInput={(event) => type(event.currentTarget.value)}
      />
    </label>
  );
}
