import type { NoticeView } from '../../model/view/noticesView.ts';
import type { EpochMs } from '../../model/units/units.ts';
import { words } from '../app/words.ts';
import { Carton, Mark } from '../marks/symbols.tsx';
import { Caution } from '../matters/caution.tsx';
import { NeedsLogIn } from '../people/needsLogIn.tsx';
import { useSession } from '../people/session.ts';
import { useEnter, useMoment, usePart } from '../store/use.tsx';
import { useLanding, useSending } from './acts.ts';
import { Closing } from './closing.tsx';
import { Evidence } from './evidence.tsx';
import { HandOver, Shelve } from './inside.tsx';
import { Joined } from './joined.tsx';
import { Listed } from './listed.tsx';
import { MARK_OF, SeeNotice } from './list.tsx';
import { useNaming } from './naming.ts';
import { Outcome } from './outcome.tsx';
import { ToldLine } from './told.tsx';
import { useWhoSaid } from './who.ts';

const said = words.screen.notices;
const { noticeSaid } = words;
const { caution } = words.screen;

/** One notice, folded out of the list: what it is, the one thing to press, evidence, caution, what to look at first, its end. */
export function Notice({ notice }: { readonly notice: NoticeView }) {
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const naming = useNaming();
  const { station, state, look } = notice;
  const when = (at: number) => said.when(at, clock, zone);
  const open = state !== 'ended';
  const { ref: landing, land } = useLanding<HTMLDivElement>();
  return (
    <article className="sheet onenotice" aria-label={noticeSaid.title(notice)}>
      <header>
        {station ? (
          <Carton drawing={station.drawing} off={open} width={120} />
        ) : (
          <Mark id={MARK_OF[state]} size={88} />
        )}
        <div>
          <p className={state === 'raised' ? 'noticetab abnormal' : 'noticetab'}>{said.tab(notice, clock)}</p>
          <h2>{noticeSaid.title(notice)}</h2>
          <p className="says">{noticeSaid.what(notice, naming)}</p>
          <Listed facts={notice.facts} />
          <p className="second">{said.facts(when(notice.since), when(notice.at), notice.size)}</p>
          <ImGoing notice={notice} acted={land} />
        </div>
      </header>
      <Outcome notice={notice} landing={landing} />
      <ToldLine notice={notice} />
      <section>
        <Evidence notice={notice} />
        <Joined notice={notice} />
        <p className="ways">
          <SeeNotice notice={notice}>{words.screen.past.replay.seeIt.link}</SeeNotice>
          {ways(notice).map(([text, href]) => (
            <a key={href} href={href}>
              {text}
            </a>
          ))}
        </p>
      </section>
      {noticeSaid.isAtTheMachine(notice.kind) && <Caution title={caution.title} text={caution.jam} />}
      {station && open && (
        <section className="lookfirst">
          <h3>{said.lookFirst}</h3>
          {look.length === 0 && <p>{said.noLook}</p>}
          <ol>
            {look.map((one) => (
              <li key={noticeSaid.look(one, naming)}>{noticeSaid.look(one, naming)}</li>
            ))}
          </ol>
        </section>
      )}
      <Closing notice={notice} acted={land} />
      {open && (
        <div className="noticeinside noprint">
          <HandOver notice={notice} acted={land} />
          <Shelve notice={notice} acted={land} />
        </div>
      )}
      <Story notice={notice} />
    </article>
  );
}

/** The one button. Once it is pressed, whose it is stands in its place. */
function ImGoing({ notice, acted }: { readonly notice: NoticeView; readonly acted: () => void }) {
  const enter = useEnter();
  const who = useWhoSaid();
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const { id, taken, hasAt, owner, ownerShutOff, state } = notice;
  const sent = useSending(id, 'noticeTaken');
  if (taken) {
    const has = owner === undefined ? who(taken.by) : said.numbered(owner);
    return (
      <>
        <p className="has">
          {said.has(has, said.when(hasAt ?? taken.at, clock, zone))} {ownerShutOff && said.hasShutOff}
        </p>
        {state === 'taken' && hasAt !== undefined && (
          <TakeOver id={id} over={hasAt} owner={owner} acted={acted} />
        )}
      </>
    );
  }
  if (state === 'ended') return null;
  if (sent) return null;
  return (
    <>
      <button
        type="button"
        className="btn going"
        onClick={() => {
          enter({ kind: 'noticeTaken', notice: id });
          acted();
        }}
      >
        {said.going}
      </button>
      <NeedsLogIn act="takeNotice" />
    </>
  );
}

/** [NL2] Somebody else goes in place of whoever has it; not for whoever has it. */
function TakeOver({
  id,
  over,
  owner,
  acted,
}: {
  readonly id: string;
  readonly over: EpochMs;
  readonly owner: string | undefined;
  readonly acted: () => void;
}) {
  const enter = useEnter();
  const session = useSession();
  const isSent = useSending(id, 'noticeTaken')?.over === over;
  if (isSent || (owner !== undefined && session?.person?.number === owner)) return null;
  return (
    <div className="noprint">
      <button
        type="button"
        className="btn plain"
        onClick={() => {
          enter({ kind: 'noticeTaken', notice: id, over });
          acted();
        }}
      >
        {said.takeOver}
      </button>{' '}
      <span className="second">{said.takeOverMeans}</span>
      <NeedsLogIn act="takeNotice" />
    </div>
  );
}

/** Where the evidence stands, whole. */
function ways({ kind, station }: NoticeView): readonly (readonly [string, string])[] {
  if (station) {
    const id = encodeURIComponent(station.id);
    return [
      [said.toStation, `/stations/${id}`],
      [said.toStops, `/stops?station=${id}`],
    ];
  }
  switch (kind) {
    case 'press':
    case 'ranOn':
    case 'test':
      return [[said.toSafety, '/safety-stops']];
    case 'server':
    case 'clock':
    case 'unseen':
      return [[said.toSignals, '/signals']];
    case 'changeover':
    case 'rate':
      return [[said.toChangeovers, '/changeovers']];
    default:
      return [[said.toStops, '/stops']];
  }
}

function Story({ notice: { story } }: { readonly notice: NoticeView }) {
  const { zone } = usePart('line');
  const { clock } = useMoment();
  const who = useWhoSaid();
  return (
    <details className="story">
      <summary>{said.story.title}</summary>
      <ol>
        {story.map(({ at, what, by, detail }, place) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a story only grows at its end
          <li key={place}>
            <span>{said.when(at, clock, zone)}</span>{' '}
            {said.story.row(what, by === null ? undefined : who(by), detail)}
          </li>
        ))}
      </ol>
    </details>
  );
}
