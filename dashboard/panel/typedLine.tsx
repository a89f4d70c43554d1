/** A line to type in across the panel, and the key beside it that takes it. */
export function TypedLine({
  typed,
  most,
  label,
  hint = label,
  says,
  needed = false,
  ready = true,
  type,
  keep,
}: {
  readonly typed: string;
  readonly most: number;
  readonly label: string;
  /** What stands in it while it is empty. */
  readonly hint?: string;
  readonly says: string;
  /** Whether nothing is taken as long as it is empty. */
  readonly needed?: boolean;
  readonly ready?: boolean;
  readonly type: (typed: string) => void;
  readonly keep: () => void;
}) {
  const isEmpty = needed && typed.trim() === '';
  return (
    <form
      className="typing"
      onSubmit={(event) => {
        event.preventDefault();
        if (ready && !isEmpty) keep();
      }}
    >
      <label htmlFor="typed" className="unseen">
        {label}
      </label>
      <input
        id="typed"
        value={typed}
        maxLength={most}
        placeholder={hint}
        autoComplete="off"
        onChange={(event) => type(event.target.value)}
      />
      <button
        type="submit"
        className="key plain"
        style={{ left: 954, top: 522, width: 302, height: 130 }}
        disabled={isEmpty}
        aria-disabled={ready ? undefined : true}
      >
        <span>{says}</span>
      </button>
    </form>
  );
}
