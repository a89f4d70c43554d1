/** One of several answers, each its own button. */
export function Choice<Answer extends string>({
  legend,
  of,
  names,
  chosen,
  choose,
}: {
  readonly legend: string;
  readonly of: readonly Answer[];
  readonly names: Readonly<Record<Answer, string>>;
  readonly chosen: Answer | undefined;
  readonly choose: (answer: Answer) => void;
}) {
  return (
    <fieldset>
      <legend>{legend}</legend>
      {of.map((answer) => (
        <button
          key={answer}
          type="button"
          className="btn plain"
          aria-pressed={answer === chosen}
          onClick={() => choose(answer)}
        >
          {names[answer]}
        </button>
      ))}
    </fieldset>
  );
}
