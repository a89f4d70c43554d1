import { ROLES, type Role } from '../../model/access/access.ts';
import { words } from '../app/words.ts';

const said = words.screen.people;

/** Roles to be chosen, each with what it may do. */
export function Roles({
  chosen,
  choose,
}: {
  readonly chosen: readonly Role[];
  readonly choose: (role: Role) => void;
}) {
  return (
    <fieldset className="roles">
      <legend>{said.list.columns[2]}</legend>
      {ROLES.map((role) => (
        <label key={role}>
          <input type="checkbox" checked={chosen.includes(role)} onChange={() => choose(role)} />
          <span>
            <b>{said.roles[role]}</b> <small>{said.rolesSay[role]}</small>
          </span>
        </label>
      ))}
    </fieldset>
  );
}

/** With that role, or without it where it was among them. */
export function rolesIn(roles: readonly Role[], role: Role): readonly Role[] {
  return ROLES.filter((one) => roles.includes(one) !== (one === role));
}
