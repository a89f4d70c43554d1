import type { ReactNode } from 'react';
import { NOTICE_KINDS, type NoticeKind } from '../../model/notices/notice.ts';
import { NOTICE_LEVELS } from '../../model/notices/recipients.ts';
import { type CountedWithin, type NoticeRules, SETTINGS_BOUNDS } from '../../model/notices/settings.ts';
import { words } from '../app/words.ts';
import { NumberField, OneOf, Sentence } from './settingsFields.tsx';

const said = words.screen.noticeSettings.rules;
const { levels, kinds } = words.noticeSaid;

type RuleKind = Exclude<NoticeKind, 'many'>;
const RULES = NOTICE_KINDS.filter((kind): kind is RuleKind => kind !== 'many');
/** Shares are typed per cent. */
const PER_CENT = 100;

type FieldName = keyof typeof said.field;
type Numbers = Readonly<Partial<Record<FieldName, number>>>;

const BOUNDS = {
  ...SETTINGS_BOUNDS,
  leastMegabytes: SETTINGS_BOUNDS.megabytes,
  share: {
    least: Math.round(SETTINGS_BOUNDS.share.least * PER_CENT),
    most: SETTINGS_BOUNDS.share.most * PER_CENT,
  },
} as const;

/** Each rule as a sentence with its numbers in it, on or off, and how much it hurries. */
export function Rules({
  rules,
  change,
}: {
  readonly rules: NoticeRules;
  readonly change: (rules: NoticeRules) => void;
}) {
  return (
    <section className="sheet rules" aria-labelledby="rules">
      <h2 id="rules">{said.title}</h2>
      <p className="second">
        {said.about} {NOTICE_LEVELS.map((level) => `${levels[level]}: ${said.levelSays[level]}`).join('; ')}.
      </p>
      <ul>
        {RULES.map((kind) => (
          <Rule key={kind} kind={kind} rules={rules} change={change} />
        ))}
      </ul>
      <p className="rule">
        <Sentence
          text={said.many}
          fields={fieldsOf(rules.many, (many) => change({ ...rules, many: { ...rules.many, ...many } }))}
        />
      </p>
      <p className="rule">
        <Sentence
          text={said.returned}
          fields={fieldsOf({ hours: rules.returnedHours }, ({ hours = Number.NaN }) =>
            change({ ...rules, returnedHours: hours }),
          )}
        />
      </p>
    </section>
  );
}

function Rule({
  kind,
  rules,
  change,
}: {
  readonly kind: RuleKind;
  readonly rules: NoticeRules;
  readonly change: (rules: NoticeRules) => void;
}) {
  const rule = rules[kind];
  const put = (part: object) => change({ ...rules, [kind]: { ...rule, ...part } });
  const within =
    kind === 'stopsCounted' ? (
      <Within within={rules.stopsCounted.within} change={(next) => put({ within: next })} />
    ) : undefined;
  const fields = fieldsOf(numbersOf(rule), put, !rule.on);
  return (
    <li className={rule.on ? 'rule' : 'rule off'} data-kind={kind}>
      <input
        type="checkbox"
        checked={rule.on}
        aria-label={said.on(kinds[kind])}
        onChange={() => put({ on: !rule.on })}
      />
      <p>
        <Sentence text={said.sentence[kind]} fields={{ ...fields, within }} />
      </p>
      <OneOf
        label={`${said.level}: ${kinds[kind]}`}
        all={NOTICE_LEVELS.map((id) => ({ id, name: levels[id] }))}
        chosen={rules.levels[kind]}
        disabled={!rule.on}
        choose={(level) => change({ ...rules, levels: { ...rules.levels, [kind]: level } })}
      />
    </li>
  );
}

/** Counted by minutes of running or by cartons. */
function Within({
  within,
  change,
}: {
  readonly within: CountedWithin;
  readonly change: (within: CountedWithin) => void;
}) {
  const { kind } = within;
  const value = kind === 'minutes' ? within.minutes : within.cartons;
  return (
    <>
      <NumberField
        value={value}
        bounds={BOUNDS[kind]}
        label={said.field[kind]}
        change={(next) => change(kind === 'minutes' ? { kind, minutes: next } : { kind, cartons: next })}
      />
      <OneOf
        label={said.within.label}
        all={[
          { id: 'minutes', name: said.within.minutes },
          { id: 'cartons', name: said.within.cartons },
        ]}
        chosen={kind}
        choose={(next) =>
          change(next === 'minutes' ? { kind: 'minutes', minutes: 30 } : { kind: 'cartons', cartons: 1000 })
        }
      />
    </>
  );
}

function numbersOf(rule: object): Numbers {
  return Object.fromEntries(
    Object.entries(rule).filter(([name, value]) => name in said.field && typeof value === 'number'),
  );
}

function fieldsOf(
  numbers: Numbers,
  put: (part: Numbers) => void,
  disabled = false,
): Readonly<Record<string, ReactNode>> {
  const names = Object.keys(numbers) as FieldName[];
  return Object.fromEntries(
    names.map((name) => {
      const scale = name === 'share' ? PER_CENT : 1;
      return [
        name,
        <NumberField
          key={name}
          value={rounded(numbers[name]! * scale)}
          bounds={BOUNDS[name]}
          label={said.field[name]}
          disabled={disabled}
          change={(next) => put({ [name]: next / scale })}
        />,
      ];
    }),
  );
}

/** Without what a hundredfold share has after its third decimal by the way computers multiply. */
function rounded(value: number): number {
  return Math.round(value * 1000) / 1000;
}
