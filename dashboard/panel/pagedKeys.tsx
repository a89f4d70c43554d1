import { useState } from 'react';
import { words } from '../app/words.ts';
import { Key } from './key.tsx';

/** Keys on a page, in two columns. */
const ON_PAGE = 6;

/** Something of many is chosen: six keys on a page, the last of them for the next page where there are more. */
export function PagedKeys({
  keys,
  kind,
}: {
  readonly keys: readonly {
    readonly id: string;
    readonly says: readonly string[];
    readonly onTap: () => void;
  }[];
  readonly kind: string;
}) {
  const [from, turn] = useState(0);
  const isLong = keys.length > ON_PAGE;
  const shown = keys.slice(from, from + (isLong ? ON_PAGE - 1 : ON_PAGE));
  return (
    <>
      {shown.map(({ id, says, onTap }, i) => (
        <Key
          key={id}
          says={says}
          left={24 + (i % 2) * 628}
          top={246 + Math.floor(i / 2) * 138}
          width={604}
          height={130}
          look="asks"
          kind={kind}
          onTap={onTap}
        />
      ))}
      {isLong && (
        <Key
          says={words.screen.people.panel.more}
          left={652}
          top={522}
          width={604}
          height={130}
          kind="more"
          onTap={() => turn(from + shown.length < keys.length ? from + shown.length : 0)}
        />
      )}
    </>
  );
}
