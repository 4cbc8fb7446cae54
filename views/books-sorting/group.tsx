// A row of the desk: the waiting transactions of one payee with where they go; each of them underneath, to leave out or send elsewhere.
import { raw } from 'hono/html'
import { type Day, dayName } from '#calendar/day.ts'
import { sumCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { fieldId, Hidden, type Option } from '../parts/field.tsx'
import { SideWord } from '../parts/side.tsx'
import type { DeskRow } from './line-facts.tsx'

export interface DeskGroup {
  /** One or more, all of one payee, account, direction and proposal. */
  rows: readonly DeskRow[]
  take: boolean
  /** As the list of targets has it; `p`: each as it is proposed. */
  to: string
  enterprise: string
  /** Lines that go elsewhere than their row. */
  own: ReadonlyMap<number, string>
  /** Lines left out. */
  without: ReadonlySet<number>
  /** Each line can be chosen for by itself. */
  isOpen: boolean
  /** As it was proposed. */
  was: { take: boolean; to: string }
}

export interface GroupProps {
  group: DeskGroup
  index: number
  /** What is likely, the choice as it stands first of all; then every place as one text of `option` tags. */
  likely: readonly Option[]
  places: string
  /** Enterprises, as `option` tags; empty where there are none. */
  enterprises: readonly Option[]
  error: string | undefined
}

/** So many lines stand under a closed row; the others when it is opened. */
const mostClosed = 20

export const GroupRow = (props: GroupProps) => {
  const { group, index, error } = props
  const [row] = group.rows as [DeskRow]
  const at = `g.${index}`
  const name = nameOf(group.rows)
  const ids = group.rows.map(({ id }) => id)
  const shown = group.isOpen ? ids.length : mostClosed
  return (
    <li class={group.was.to === '' ? 'desk-group unplaced' : 'desk-group'} data-count={ids.length}>
      <Hidden name={`${at}.lines`} value={ids.slice(0, shown).join(' ')} />
      {ids.length > shown ? <Hidden name={`${at}.more`} value={ids.slice(shown).join(' ')} /> : null}
      <Hidden name={`${at}.was`} value={`${group.was.take ? 1 : 0}.${group.was.to}`} />
      <input
        type="checkbox"
        class="desk-take"
        id={fieldId(`${at}.take`)}
        name={`${at}.take`}
        value="yes"
        checked={group.take}
        aria-label={`Book ${ids.length === 1 ? '' : `${ids.length} from `}${name}`}
      />
      <label class="desk-payee" for={fieldId(`${at}.take`)}>
        <strong>{name}</strong>
        <span class="hint">
          <SideWord kind={row.side.kind}>{row.account}</SideWord>
          {ids.length === 1 && row.payee && row.memo ? ` ${row.memo}` : ''}
          {row.checkNumber && ids.length === 1 ? ` check ${row.checkNumber}` : ''}
        </span>
      </label>
      <span class="desk-sum amount">{formatCents(sumCents(group.rows.map(({ amount }) => amount)))}</span>
      <span class="desk-goes">
        <TargetChoice {...props} name={`${at}.to`} label={`Where ${name} goes`} chosen={group.to} />
        {props.enterprises.length > 0 ? (
          <select name={`${at}.enterprise`} aria-label={`Enterprise of ${name}`} class="desk-enterprise">
            <option value="">No enterprise</option>
            {props.enterprises.map(({ value, label }) => (
              <option value={value} selected={value === group.enterprise}>
                {label}
              </option>
            ))}
          </select>
        ) : null}
      </span>
      <p class="desk-why hint">
        {row.proposal?.why ?? ''}
        {error ? (
          <span class="field-error" id={`${fieldId(`${at}.to`)}-error`}>
            <span class="hidden-text">Error: </span>
            {error}
          </span>
        ) : null}
      </p>
      <Lines {...props} at={at} name={name} />
    </li>
  )
}

/** Of several, without the numbers that each has its own of. */
const nameOf = (rows: readonly DeskRow[]): string => {
  const [row] = rows as [DeskRow]
  const { value = '', says = '' } = row.proposal ?? {}
  if (value.startsWith('t:')) return says
  const text = row.payee || row.memo || 'No text'
  return rows.length === 1 ? text : text.replace(/\S*\d\S*/g, '').trim() || text
}

const TargetChoice = ({
  name,
  label,
  chosen,
  likely,
  places,
  error,
}: Pick<GroupProps, 'likely' | 'places' | 'error'> & { name: string; label: string; chosen: string }) => (
  <select
    id={fieldId(name)}
    name={name}
    aria-label={label}
    {...(error ? { 'aria-invalid': 'true', 'aria-describedby': `${fieldId(name)}-error` } : {})}
  >
    <option value="">Choose what it was for</option>
    {likely.length > 0 ? (
      <optgroup label="Likely">
        {likely.map((option) => (
          <option value={option.value} selected={option.value === chosen}>
            {option.label}
          </option>
        ))}
      </optgroup>
    ) : null}
    {raw(places)}
  </select>
)

const Lines = (props: GroupProps & { at: string; name: string }) => {
  const { group, at, name } = props
  const { rows } = group
  return (
    <details class="desk-lines" open={group.isOpen}>
      <summary>
        {rows.length === 1 ? dayName(rows[0]!.day) : `${rows.length} transactions, ${daysOf(rows)}`}
        <span class="hidden-text"> of {name}</span>
      </summary>
      {rows.length > 1 ? (
        <ul>
          {rows.slice(0, group.isOpen ? rows.length : mostClosed).map((row) => (
            <GroupLine {...props} row={row} />
          ))}
        </ul>
      ) : null}
      {rows.length > mostClosed && !group.isOpen ? (
        <p class="hint">and {rows.length - mostClosed} more: press “Choose for each” to see them</p>
      ) : null}
      <p class="desk-acts">
        {rows.length > 1 && !group.isOpen ? (
          <Act value={`open:${rows[0]!.id}`} says="Choose for each" of={name} />
        ) : null}
        <Act value={`line:${rows[0]!.id}`} says="Split" of={name} />
        <Act name="skip" value={at.slice(2)} says="Skip" of={name} />
      </p>
    </details>
  )
}

const Act = (props: { name?: string; value: string; says: string; of: string }) => (
  <button type="submit" class="link-like" name={props.name ?? 'go'} value={props.value} data-act={props.says}>
    {props.says}
    <span class="hidden-text"> {props.of}</span>
  </button>
)

const GroupLine = (props: GroupProps & { at: string; row: DeskRow }) => {
  const { group, at, row } = props
  const what = `${dayName(row.day)}, ${formatCents(row.amount)}`
  return (
    <li>
      <span class="desk-day">{dayName(row.day)}</span>
      <span class="amount">{formatCents(row.amount)}</span>
      <span class="hint desk-memo">{row.payee === props.group.rows[0]!.payee ? row.memo : row.payee}</span>
      {group.isOpen ? (
        <TargetChoice
          name={`${at}.own.${row.id}`}
          label={`Where ${what} goes`}
          chosen={group.own.get(row.id) ?? ''}
          likely={props.likely}
          places={props.places}
          error={undefined}
        />
      ) : null}
      <label class="desk-without">
        <input
          type="checkbox"
          name={`${at}.without[]`}
          value={String(row.id)}
          checked={group.without.has(row.id)}
        />{' '}
        Leave out<span class="hidden-text"> {what}</span>
      </label>
    </li>
  )
}

const daysOf = (rows: readonly DeskRow[]): string => {
  const days = rows.map(({ day }) => day).sort()
  const [first, last] = [days[0] as Day, days.at(-1) as Day]
  if (first === last) return dayName(first)
  const isOneYear = first.slice(0, 4) === last.slice(0, 4)
  return `${isOneYear ? dayName(first).replace(/, \d{4}$/, '') : dayName(first)} to ${dayName(last)}`
}
