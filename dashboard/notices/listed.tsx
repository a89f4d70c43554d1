import type { NoticeFacts } from '../../model/notices/notice.ts';
import { words } from '../app/words.ts';
import { usePart } from '../store/use.tsx';

/** What a notice lists, such as every device that is due a test. */
export function Listed({ facts }: { readonly facts: NoticeFacts }) {
  const { zone } = usePart('line');
  const rows = words.noticeSaid.listed(facts, zone);
  if (rows.length === 0) return null;
  return (
    <ul className="noticelisted">
      {rows.map((row) => (
        <li key={row}>{row}</li>
      ))}
    </ul>
  );
}
