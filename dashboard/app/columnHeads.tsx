/** The headings of a table's columns; one more without a heading where each row ends in a key. */
export function ColumnHeads({
  columns,
  keyed = false,
}: {
  readonly columns: readonly string[];
  readonly keyed?: boolean;
}) {
  return (
    <thead>
      <tr>
        {columns.map((column) => (
          <th key={column} scope="col">
            {column}
          </th>
        ))}
        {keyed && <td />}
      </tr>
    </thead>
  );
}
