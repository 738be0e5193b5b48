/** One of a few, all visible, worked by keys as any set of radio buttons. */
interface PickOneProps<T extends string> {
  readonly legend: string;
  readonly name: string;
  readonly options: readonly T[];
  readonly chosen: T;
  readonly label: (option: T) => string;
  readonly pick: (option: T) => void;
}

export function PickOne<T extends string>(props: PickOneProps<T>) {
  return (
    <fieldset class="pick" data-testid={`pick-${props.name}`}>
      <legend>{props.legend}</legend>
      {props.options.map((option) => (
        <label key={option}>
          <input
            type="radio"
            name={props.name}
            value={option}
            checked={option === props.chosen}
            onChange={() => props.pick(option)}
          />
          <span>{props.label(option)}</span>
        </label>
      ))}
    </fieldset>
  );
}
