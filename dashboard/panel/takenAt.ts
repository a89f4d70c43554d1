import type { NoticeView } from '../../model/view/noticesView.ts';
import type { PositionView } from '../../model/view/view.ts';

/** Whether this position took it, and has it still. */
export function isTakenAt({ taken, owner }: NoticeView, { id }: PositionView): boolean {
  return owner === undefined && taken?.by.kind === 'position' && taken.by.position === id;
}
