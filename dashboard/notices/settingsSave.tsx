import { ENTRY_MOST } from '../../model/entries/entries.ts';
import { words } from '../app/words.ts';
import type { Drafting } from './settingsDraft.ts';

const said = words.screen.noticeSettings.save;

/** One button for all that was changed, with its reason; what keeps it from being saved is said before it is pressed. */
export function SaveSettings({
  drafting: { why, isChanged, isMoved, isSending, say, back, save },
  troubles,
  may,
}: {
  readonly drafting: Drafting;
  readonly troubles: readonly string[];
  readonly may: boolean;
}) {
  const fits = isChanged && troubles.length === 0 && why.trim() !== '';
  return (
    <form
      className={isChanged ? 'sheet savesettings changed' : 'sheet savesettings'}
      onSubmit={(event) => {
        event.preventDefault();
        if (fits && may && !isSending) save();
      }}
    >
      <label className="textfield wide">
        <span>{said.why}</span>
        <input
          value={why}
          maxLength={ENTRY_MOST.words}
          autoComplete="off"
          disabled={!isChanged || isSending}
          onChange={({ currentTarget }) => say(currentTarget.value)}
        />
      </label>
      <button type="submit" className="btn" disabled={!fits || !may || isSending}>
        {isSending ? said.onItsWay : said.button}
      </button>
      {isChanged && !isSending && (
        <button type="button" className="btn plain" onClick={back}>
          {said.back}
        </button>
      )}
      <div role="status">
        <p className="second">{isChanged ? said.changed : said.unchanged}</p>
        {isChanged && isMoved && <p className="moved">{said.moved}</p>}
        {isChanged && troubles.length > 0 && (
          <>
            <p>{said.notYet}</p>
            <ul className="troubles">
              {troubles.map((trouble) => (
                <li key={trouble}>{trouble}</li>
              ))}
            </ul>
          </>
        )}
        {isChanged && troubles.length === 0 && why.trim() === '' && <p>{said.needsWhy}</p>}
      </div>
    </form>
  );
}
