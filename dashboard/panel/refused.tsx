import type { PositionView } from '../../model/view/view.ts';
import { words } from '../app/words.ts';
import type { Sent } from '../store/store.ts';
import { Ask, Key } from './key.tsx';
import { FlowHead } from './panel-head.tsx';

/** An entry that was not taken is said with its mend until somebody has read it: none is lost silently. */
export function Refused({
  here,
  sent,
  onTap,
}: {
  readonly here: PositionView;
  readonly sent: Sent;
  readonly onTap: () => void;
}) {
  const { panel, entry } = words.screen;
  return (
    <>
      <FlowHead here={here} title={panel.notTaken} right="" />
      <Ask top={190}>{`${panel.notTaken}: ${entry.names[sent.entry.kind]}`}</Ask>
      <p className="told" style={{ top: 290 }} role="alert">
        <b>{sent.trouble}</b>
        <br />
        {sent.why} {sent.mend}
        {sent.entry.kind === 'noticeClosed' && (
          <>
            <br />
            {words.screen.noticePanel.yours(
              words.noticeSaid.found[sent.entry.found],
              words.noticeSaid.done[sent.entry.done],
            )}
          </>
        )}
      </p>
      <Key
        says={panel.understood}
        left={24}
        top={652}
        width={604}
        height={134}
        look="asks"
        kind="understood"
        onTap={onTap}
      />
    </>
  );
}
