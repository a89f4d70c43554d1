import { useState } from 'react';
import { SECRET } from '../../model/access/secrets.ts';
import { words } from '../app/words.ts';
import { Field, Sending } from './sending.tsx';

const said = words.screen.people.own;

/** Another code or password of one's own; asked for at once where somebody else made the one before. */
export function OwnSecret({ must }: { readonly must: boolean }) {
  const [done, tell] = useState(false);
  return (
    <details open={must} className="own">
      <summary>{said.title}</summary>
      {must && <p>{said.must}</p>}
      <p className="second">{said.rule}</p>
      <Sending
        method="PUT"
        path="/api/session/secret"
        says={said.choose}
        body={(field) =>
          field('next') === field('again') ? { secret: field('secret'), next: field('next') } : said.differ
        }
        done={() => tell(true)}
      >
        <Field name="secret" label={said.before} kind="secret" most={SECRET.most} />
        <Field name="next" label={said.next} kind="newSecret" most={SECRET.most} />
        <Field name="again" label={said.again} kind="newSecret" most={SECRET.most} />
      </Sending>
      {done && <p role="status">{said.done}</p>}
    </details>
  );
}
