import { ALIGNMENTS, type Alignment } from '../../model/past/compared/aligned.ts';
import type { Compared } from '../../model/past/compared/compared.ts';
import { words } from '../app/words.ts';
import { Choice } from '../past/choose.tsx';

const said = words.screen.past.replay.compared;

/** [RP10] By what the two are laid over one another; and that it is not so where one of them has none. */
export function AlignChoice({
  align,
  compared,
  names,
  choose,
}: {
  readonly align: Alignment;
  readonly compared: Compared | undefined;
  readonly names: { readonly here: string; readonly there: string };
  readonly choose: (align: Alignment) => void;
}) {
  const without = compared && said.without(compared, names);
  return (
    <div className="alignrow">
      <p>
        {said.hung(names.there, compared?.alignment ?? align)} {without}
      </p>
      <Choice
        label={said.align.label}
        options={ALIGNMENTS.map((one) => ({ id: one, said: said.align[one] }))}
        chosen={align}
        choose={(next) => choose(ALIGNMENTS.find((one) => one === next) ?? 'clock')}
      />
    </div>
  );
}
