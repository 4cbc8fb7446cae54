// A row of the desk: the waiting transactions of one payee with where they go; each of them underneath, to leave out or send elsewhere.

import { type Day, dayName } from '#calendar/day.ts'
import { fromTo } from '#calendar/spell.ts'
import { withoutNumbers } from '#ledger/statements/payee-text.ts'
import { type Cents, cents, sumCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { ChosenOptions, fieldId, Hidden, type Option } from '../parts/field.tsx'
import { refreshes } from '../parts/htmx.ts'
import { SideWord } from '../parts/side.tsx'
import { ClosedNote, type DeskRow } from './line-facts.tsx'
import { type PlaceList, TargetChoice } from './places.tsx'

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
  /** Its lines are asked for, to be chosen for one by one. */
  isOpen: boolean
  /** The lines that are shown, of an opened row those after so many; of another one those of which something is said. */
  from: number
  shown: readonly DeskRow[]
  /** As it was proposed. */
  was: { take: boolean; to: string }
  /** Letters that name no place, by the id of the line they were typed for; the row's own under `''`. */
  typed: Readonly<Record<string, string>>
  /** Whether it is pay after tax is asked. */
  asksPay: boolean
}

export interface GroupProps {
  group: DeskGroup
  /** What is likely, the choice as it stands first of all. */
  likely: readonly Option[]
  places: PlaceList
  /** Enterprises and batches, as choices of one list; empty where there are none. */
  enterprises: readonly Option[]
  isForFarm: (value: string) => boolean
  /** Of money that goes there it is asked whether tax was withheld. */
  isForPay: (value: string) => boolean
  error: string | undefined
  /** Where its transactions are, to be shown underneath. */
  address: string
}

export const GroupRow = (props: GroupProps) => {
  const { group, error } = props
  const [row] = group.rows as [DeskRow]
  const at = rowName(group)
  const name = nameOf(group.rows)
  const count = group.rows.length
  return (
    <li class={group.was.to === '' ? 'desk-group unplaced' : 'desk-group'} data-count={count}>
      <Hidden name={`${at}.was`} value={`${group.was.take ? 1 : 0}.${group.was.to}`} />
      <input
        type="checkbox"
        class="desk-take"
        id={fieldId(`${at}.take`)}
        name={`${at}.take`}
        value="yes"
        checked={group.take}
        aria-label={`Book ${count === 1 ? '' : `${count} from `}${name}`}
      />
      <label class="desk-payee" for={fieldId(`${at}.take`)}>
        <strong>{name}</strong>
        <span class="hint">
          <SideWord kind={row.side.kind}>{row.account}</SideWord>
          {count === 1 && row.payee && row.memo ? ` ${row.memo}` : ''}
          {row.checkNumber && count === 1 ? ` check ${row.checkNumber}` : ''}
        </span>
      </label>
      <span class="desk-sum amount">{formatCents(sumOf(group.rows))}</span>
      <span class="desk-goes">
        <TargetChoice
          {...props}
          name={`${at}.to`}
          typedName={`${at}.toTyped`}
          label={`Where ${name} goes`}
          of={name}
          empty="Choose what it was for"
          chosen={group.to}
          typed={group.typed[''] ?? ''}
        />
        <EnterpriseChoice {...props} name={`${at}.enterprise`} of={name} />
      </span>
      <div class="desk-why hint">
        {row.proposal?.why ?? ''} <ClosedNote rows={group.rows} />
        {error ? (
          <span class="field-error" id={`${fieldId(`${at}.to`)}-error`}>
            <span class="hidden-text">Error: </span>
            {error}
          </span>
        ) : null}
        {row.amount > 0 ? <PayQuestion lineId={row.id} of={name} isAsked={group.asksPay} /> : null}
      </div>
      <Lines {...props} name={name} />
    </li>
  )
}

/** Named after its first line, never after its place in the list: what comes back under a name is then of the same transactions. */
export const rowName = ({ rows }: Pick<DeskGroup, 'rows'>): string => `g.n${rows[0]!.id}`

/** Both halves of a transfer are one sum, which leaves one account and reaches the other: it has no sign. */
const sumOf = (rows: readonly DeskRow[]): Cents => {
  const ids = new Set(rows.map(({ id }) => id))
  const otherOf = ({ proposal }: DeskRow) => Number(/^t:(\d+)$/.exec(proposal?.value ?? '')?.[1])
  if (!rows.some((row) => ids.has(otherOf(row)))) return sumCents(rows.map(({ amount }) => amount))
  const once = rows.filter((row) => !ids.has(otherOf(row)) || row.id < otherOf(row))
  return sumCents(once.map(({ amount }) => cents(Math.abs(amount))))
}

/** Of several, without the numbers that each has its own of. */
export const nameOf = (rows: readonly DeskRow[]): string => {
  const [row] = rows as [DeskRow]
  const { value = '', says = '' } = row.proposal ?? {}
  if (value.startsWith('t:')) return says
  const text = row.payee || row.memo || 'No text'
  return rows.length === 1 ? text : withoutNumbers(text)
}

/** What the money was for beside its account: an enterprise, or one batch of it. */
const EnterpriseChoice = ({
  enterprises,
  group,
  name,
  of,
}: Pick<GroupProps, 'enterprises' | 'group'> & { name: string; of: string }) =>
  enterprises.length === 0 ? null : (
    <select
      name={name}
      aria-label={`Enterprise or batch of ${of}`}
      class={group.rows[0]!.side.kind === 'household' ? 'desk-enterprise only-of-farm' : 'desk-enterprise'}
    >
      <option value="">No enterprise</option>
      <ChosenOptions options={enterprises} value={group.enterprise} />
    </select>
  )

/** There from the start, and in sight where such a place is chosen or was sent (sorting.css): a place is chosen without a word to the server. */
const PayQuestion = ({ lineId, of, isAsked }: { lineId: number; of: string; isAsked: boolean }) => (
  <p class={isAsked ? 'desk-acts' : 'desk-acts only-of-pay'}>
    Was tax withheld? <Act value={`line:${lineId}`} says="Say what was withheld" of={of} />
    <label class="desk-without">
      <input type="checkbox" name="payAsPaid[]" value={String(lineId)} /> Nothing was withheld
      <span class="hidden-text"> from {of}</span>
    </label>
  </p>
)

const Lines = (props: GroupProps & { name: string }) => {
  const { rows, isOpen, shown } = props.group
  const asks =
    rows.length === 1 || isOpen || shown.length > 0
      ? {}
      : refreshes(linesId(rows[0]!.id), { get: props.address }, 'toggle once')
  return (
    <details class="desk-lines" open={isOpen || shown.length > 0} {...asks}>
      <summary>
        {rows.length === 1 ? dayName(rows[0]!.day) : `${rows.length} transactions, ${daysOf(rows)}`}
        <span class="hidden-text"> of {props.name}</span>
      </summary>
      <GroupLines {...props} />
    </details>
  )
}

/** So many transactions of an opened row are shown at once. */
export const linesPerRow = 15

export const linesId = (lineId: number): string => `lines-${lineId}`

/** What stands under a row: its transactions once they are asked for, and what can be done with them. */
export const GroupLines = (props: GroupProps) => {
  const { group } = props
  const { rows } = group
  const at = rowName(group)
  const name = nameOf(rows)
  return (
    <div id={linesId(rows[0]!.id)}>
      <Hidden name={`${at}.lines`} value={rows.map(({ id }) => id).join(' ')} />
      {rows.length > 1 ? <ShownLines {...props} at={at} /> : null}
      <p class="desk-acts">
        {rows.length > 1 && !group.isOpen ? (
          <Act value={`open:${rows[0]!.id}`} says="See each" of={name} />
        ) : null}
        <TurnLines group={group} of={name} />
        <Act value={`line:${rows[0]!.id}`} says="Split" of={name} />
        <Act name="skip" value={String(rows[0]!.id)} says="Skip" of={name} />
      </p>
    </div>
  )
}

/** Those that are shown, and what is said of the others. */
const ShownLines = (props: GroupProps & { at: string }) => {
  const { at, group } = props
  const { shown, own, without } = group
  const isShown = new Set(shown.map(({ id }) => id))
  return (
    <>
      {shown.length > 0 ? (
        <ul>
          {shown.map((row) => (
            <GroupLine {...props} row={row} />
          ))}
        </ul>
      ) : null}
      {[...own].map(([id, to]) => (isShown.has(id) ? null : <Hidden name={`${at}.own.n${id}`} value={to} />))}
      {[...without].map((id) =>
        isShown.has(id) ? null : <Hidden name={`${at}.without[]`} value={String(id)} />,
      )}
    </>
  )
}

/** A long row is gone through in parts. */
const TurnLines = ({ group: { rows, shown, from, isOpen }, of }: { group: DeskGroup; of: string }) => {
  const size = shown.length
  if (!isOpen || size === rows.length) return null
  const open = (at: number) => `open:${rows[0]!.id}.${at}`
  const before = Math.max(0, from - linesPerRow)
  return (
    <>
      <span>
        {from + 1} to {from + size} of {rows.length}
      </span>
      {from + size < rows.length ? <Act value={open(from + size)} says="Later ones" of={of} /> : null}
      {from > 0 ? <Act value={open(before)} says="Earlier ones" of={of} /> : null}
    </>
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
      <TargetChoice
        {...props}
        name={`${at}.own.n${row.id}`}
        typedName={`${at}.ownTyped.n${row.id}`}
        label={`Where ${what} goes`}
        of={what}
        empty="As its row"
        chosen={group.own.get(row.id) ?? ''}
        typed={group.typed[row.id] ?? ''}
        error={undefined}
      />
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

export const daysOf = (rows: readonly DeskRow[]): string => {
  const days = rows.map(({ day }) => day).sort()
  const [first, last] = [days[0] as Day, days.at(-1) as Day]
  const isOneYear = first !== last && first.slice(0, 4) === last.slice(0, 4)
  return fromTo(isOneYear ? dayName(first).replace(/, \d{4}$/, '') : dayName(first), dayName(last))
}
