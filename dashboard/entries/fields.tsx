/** A line to type in, with its label above it. */
export function Typing({
  label,
  value,
  most,
  type,
  numeric = false,
}: {
  readonly label: string;
  readonly value: string;
  readonly most: number;
  readonly type: (typed: string) => void;
  readonly numeric?: boolean;
}) {
  return (
    <label>
      <span>{label}</span>
      <input
        value={value}
        maxLength={most}
        autoComplete="off"
        {...(numeric ? { inputMode: 'decimal' } : {})}
        onChange={(event) => type(event.target.value)}
      />
    </label>
  );
}

/** One of several, by id and name. */
export function Choosing<Id extends string>({
  label,
  value,
  options,
  choose,
}: {
  readonly label: string;
  readonly value: Id;
  readonly options: readonly (readonly [id: Id, name: string])[];
  readonly choose: (id: Id) => void;
}) {
  return (
    <label>
      <span>{label}</span>
      <select
        value={value}
        onChange={(event) => {
          const chosen = options.find(([id]) => id === event.target.value);
          if (chosen) choose(chosen[0]);
        }}
      >
        {options.map(([id, name]) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </select>
    </label>
  );
}
