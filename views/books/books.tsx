// Books: the house on one side, the farm on the other, the yard line between them, and the latest crossings as gates in it.
import { type Day, dayName } from '#calendar/day.ts'
import type { SideKind } from '#ledger/account.ts'
import { type Cents, sumCents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'
import { PageTitle } from '../layout.tsx'
import { ButtonRow, LinkButton } from '../parts/button.tsx'
import { unbroken } from '../parts/dollars.tsx'
import { Fold } from '../parts/fold.tsx'
import { EmptyState, NoticeSection } from '../parts/message.tsx'
import { GateArrow, SideRoof, sideClass } from '../parts/side.tsx'

export interface AccountFigure {
  id: number
  name: string
  balanceCents: Cents
}

export interface SideFigures {
  id: string
  kind: SideKind
  name: string
  money: readonly AccountFigure[]
  moneyTotalCents: Cents
  /** By what is in it. */
  moneyTotalName: string
  /** What holds nothing is counted, not summed. */
  groups: readonly {
    name: string
    accounts: readonly AccountFigure[]
    isEquity?: boolean
    /** What was paid beyond what is owed, as positive amounts. */
    isOverpaid?: boolean
    isEmpty?: boolean
  }[]
  /** Money that came in is positive, that went out negative; what moved no money is shown by its size. */
  latest: readonly { no: number; day: Day; says: string; amountCents: Cents; isTakenBack: boolean }[]
}

export interface GateFigures {
  id: string
  day: Day
  kindName: string
  amountCents: Cents
  from: { name: string; kind: SideKind }
  to: { name: string; kind: SideKind }
  memo: string
  isTakenBack: boolean
}

export interface BooksFigures {
  sides: readonly SideFigures[]
  gates: readonly GateFigures[]
  toSort: readonly { accountId: number; says: string }[]
  /** Sales tax paid that the books hold in the takings. */
  overpaidTax: readonly { says: string; href: string }[]
  /** Statement lines that are not booked yet, by account: as the bank shows them. */
  waiting: readonly { accountId: number; name: string; lines: number; sumCents: Cents; bankCents: Cents }[]
}

export const BooksPage = ({ figures, doors }: { figures: BooksFigures; doors: readonly Door[] }) => {
  const household = figures.sides.find((side) => side.kind === 'household')
  const farm = figures.sides.find((side) => side.kind === 'farm')
  const ventures = figures.sides.filter((side) => side.kind === 'venture')
  return (
    <>
      <PageTitle
        help="books"
        purpose="A set of books for each side, which balances by itself. What moves between them is recorded once and lands on both sides."
      >
        Books
      </PageTitle>
      <ButtonRow>
        {doors.map((door, index) => (
          <LinkButton href={door.href} quiet={index > 0}>
            {door.name}
          </LinkButton>
        ))}
      </ButtonRow>
      <BooksAnswer figures={figures} />
      {figures.toSort.length > 0 ? <ToSort items={figures.toSort} /> : null}
      {figures.waiting.length > 0 ? <Waiting accounts={figures.waiting} /> : null}
      {figures.overpaidTax.length > 0 ? <OverpaidTax items={figures.overpaidTax} /> : null}
      <div class="yard">
        {household ? <SideBox side={household} /> : <NoSide what="household" />}
        <YardMiddle gates={figures.gates} />
        {farm ? <SideBox side={farm} /> : <NoSide what="farm" />}
      </div>
      {ventures.length > 0 ? (
        <div class="columns">
          {ventures.map((side) => (
            <SideBox side={side} />
          ))}
        </div>
      ) : null}
    </>
  )
}

const BooksAnswer = ({ figures: { sides, waiting } }: { figures: BooksFigures }) => {
  const held = sides.filter((side) => side.money.length > 0)
  if (held.length === 0) return null
  const lines = waiting.reduce((sum, one) => sum + one.lines, 0)
  return (
    <p class="answer">
      {unbroken(
        `In cash: ${held.map((side) => `${side.name} ${formatCents(side.moneyTotalCents)}`).join('; ')}.`,
      )}
      {lines === 0
        ? ''
        : ` ${lines === 1 ? 'One transaction is' : `${lines} transactions are`} not sorted yet.`}
    </p>
  )
}

export interface Door {
  href: string
  name: string
}

const SideBox = ({ side }: { side: SideFigures }) => (
  <section class={`side-box ${sideClass(side.kind)}`} aria-label={side.name}>
    <SideRoof kind={side.kind} />
    <h2>{side.name}</h2>
    <BalanceList accounts={side.money} total={{ name: side.moneyTotalName, cents: side.moneyTotalCents }} />
    {side.groups.map((group, place) => (
      <Fold
        id={`side-${side.id}-${place}`}
        name={group.name}
        holds={
          group.isEmpty
            ? String(group.accounts.length)
            : formatCents(sumCents(group.accounts.map((one) => one.balanceCents)))
        }
      >
        <BalanceList accounts={group.accounts} />
        {group.isOverpaid ? (
          <p class="hint">More was paid than is owed here: it comes back, or its other half is not booked.</p>
        ) : null}
        {group.isEquity ? (
          <p class="hint">
            With income added and costs taken off it is <a href="/crossings">owner’s equity</a>: what the side
            owns less what it owes.
          </p>
        ) : null}
      </Fold>
    ))}
    <p class="side-doors">
      <a href={`/books/entry?side=${side.id}&kind=out`}>Money out</a>{' '}
      <a href={`/books/entry?side=${side.id}&kind=in`}>Money in</a>{' '}
      <a href={`/books/entry?side=${side.id}&kind=moved`}>Transfer</a>
    </p>
    <h3>Latest entries</h3>
    {side.latest.length === 0 ? (
      <p class="hint">Nothing yet. Record money out or in, or read in a bank statement.</p>
    ) : (
      <ul class="due">
        {side.latest.map((entry) => (
          <li>
            <span>
              <a href={`/books/entries/${entry.no}`}>{entry.says}</a>{' '}
              <span class="hint">
                <span class="day">{dayName(entry.day)}</span>
                {entry.isTakenBack ? ', reversed' : ''}
              </span>
            </span>
            <span class="amount">{formatCents(entry.amountCents)}</span>
          </li>
        ))}
      </ul>
    )}
    <p>
      <a href={`/books/entries?side=${side.id}`}>All entries of {side.name}</a>
    </p>
  </section>
)

interface BalanceListProps {
  accounts: readonly AccountFigure[]
  total?: { name: string; cents: Cents }
}

const BalanceList = ({ accounts, total }: BalanceListProps) => (
  <ul class="balances">
    {accounts.map((account) => (
      <li>
        <a href={`/books/accounts/${account.id}`}>{account.name}</a>
        <span class="amount">{formatCents(account.balanceCents)}</span>
      </li>
    ))}
    {total === undefined || accounts.length < 2 ? null : (
      <li class="total">
        <span>{total.name}</span>
        <span class="amount">{formatCents(total.cents)}</span>
      </li>
    )}
  </ul>
)

const YardMiddle = ({ gates }: { gates: readonly GateFigures[] }) => (
  <section class="yard-middle" aria-labelledby="line-title">
    <h2 id="line-title">The yard</h2>
    {gates.length === 0 ? (
      <p class="hint">Nothing has crossed yet.</p>
    ) : (
      <ol class="gates">
        {gates.map((gate) => (
          <Gate {...gate} />
        ))}
      </ol>
    )}
    <p class="gate-more">
      <a href="/crossings">All crossings</a>
    </p>
  </section>
)

/** House on the left, farm on the right: the arrow points the way the value went. */
export const Gate = (gate: GateFigures) => {
  const toRight =
    gate.to.kind !== 'household' && (gate.from.kind === 'household' || gate.from.kind === 'farm')
  const [left, right] = toRight ? [gate.from, gate.to] : [gate.to, gate.from]
  return (
    <li class="gate">
      <span class="hidden-text">
        From {gate.from.name} to {gate.to.name}:{' '}
      </span>
      <span class="gate-way" aria-hidden="true">
        <span>{shortName(left)}</span>
        <GateArrow toRight={toRight} />
        <span>{shortName(right)}</span>
      </span>
      <span class="gate-amount">{formatCents(gate.amountCents)}</span>
      <span class="gate-what">
        {gate.kindName}, <span class="day">{dayName(gate.day)}</span>
        {gate.isTakenBack ? ', reversed' : ''}
      </span>
    </li>
  )
}

const shortName = (side: { name: string; kind: SideKind }): string =>
  side.kind === 'household' ? 'House' : side.kind === 'farm' ? 'Farm' : side.name

/** Why a balance here is not the bank's. */
const Waiting = ({ accounts }: { accounts: BooksFigures['waiting'] }) => (
  <NoticeSection label="Transactions that wait">
    <ul>
      {accounts.map((one) => (
        <li>
          <a href={`/books/sorting?account=${one.accountId}`}>
            {one.name}: {one.lines === 1 ? '1 transaction waits' : `${one.lines} transactions wait`} to be
            sorted
          </a>
          , {unbroken(formatCents(one.sumCents))} in all. With {one.lines === 1 ? 'it' : 'them'} the balance
          is {unbroken(formatCents(one.bankCents))}.
        </li>
      ))}
    </ul>
  </NoticeSection>
)

const ToSort = ({ items }: { items: BooksFigures['toSort'] }) => (
  <NoticeSection label="To be sorted">
    <ul>
      {items.map((item) => (
        <li>
          <a href={`/books/accounts/${item.accountId}`}>{item.says}</a>
        </li>
      ))}
    </ul>
  </NoticeSection>
)

const OverpaidTax = ({ items }: { items: BooksFigures['overpaidTax'] }) => (
  <NoticeSection label="Sales tax paid and not collected">
    <ul>
      {items.map(({ says, href }) => (
        <li>
          {says} <a href={href}>Book it</a>.
        </li>
      ))}
    </ul>
  </NoticeSection>
)

const NoSide = ({ what }: { what: string }) => (
  <EmptyState href="/start" action="Set up the books">
    There are no {what} books yet.
  </EmptyState>
)
