// Ventures that the books keep and the plan does not know, and the money they hold: each side's cash by its own side.
import { type Day, monthOfDay } from '#calendar/day.ts'
import type { Month } from '#calendar/month.ts'
import { listAccounts, listSides } from '#db/ledger/account-store.ts'
import { balancesOn, spanOfBooks } from '#db/ledger/balances.ts'
import { cardCredits } from '#db/ledger/card-credits.ts'
import { householdMonths } from '#db/ledger/household-months.ts'
import type { Books } from '#db/open.ts'
import { isMoney } from '#ledger/account.ts'
import { moneyHeld } from '#ledger/money-held.ts'
import { centsToDollars } from '#money/cents.ts'
import { formatDollars } from '#money/format.ts'
import type { Plan } from '#plan/plan.ts'
import { shortName } from '#plan/short-name.ts'
import { cashItem, ventureKey } from '#today/projection/cash-handed-over.ts'
import type { OneSided } from './figures.ts'
import { onceNextMonth } from './once-next-month.ts'

export const oneSidedVentures = (books: Books, plan: Plan, today: Day): OneSided[] => {
  const sides = listSides(books).filter(({ kind }) => kind === 'venture')
  const planned = plan.household.sideVentures.map(({ name }) => ventureKey(name))
  const unknown = sides.filter(({ name }) => !planned.includes(ventureKey(name)))
  const unmatched = planned.length - (sides.length - unknown.length)
  return [
    // As many of other names in the plan are taken for the same ones.
    ...unknown.slice(Math.max(0, unmatched)).flatMap((side) => ventureOfBooks(books, plan, side, today)),
    ...sides.flatMap((side) => cashOf(books, plan, side, today)),
  ]
}

interface Side {
  id: string
  name: string
}

/** What it gave the household a month, over the whole months of the last year. */
function ventureOfBooks(books: Books, plan: Plan, { id, name }: Side, today: Day): OneSided[] {
  const span = spanOfBooks(books)
  const last = (monthOfDay(today) - 1) as Month
  const from = Math.max((span?.first ?? last) + 1, last - 11) as Month
  if (from > last) return []
  const gave = householdMonths(books, from, last).reduce((sum, month) => {
    const own = month.bySide.find(({ sideId }) => sideId === id)
    return sum + (own ? own.drawCents + own.reimbursementCents - own.contributionCents : 0)
  }, 0)
  const perMonth = Math.round(gave / (last - from + 1)) / 100
  if (perMonth < 1) return []
  const { sideVentures } = plan.household
  const taken = new Set(sideVentures.map((one) => one.id))
  const venture = { id: shortName(name, taken, 'venture'), name, perMonth }
  return [
    {
      id: `venture-${id}`,
      waits: true,
      says: `${name} gave the household ${formatDollars(perMonth)} a month by the books, and the plan knows nothing of it`,
      change: {
        button: 'Take it into the plan',
        note: `${name} taken into the plan`,
        plan: { ...plan, household: { ...plan.household, sideVentures: [...sideVentures, venture] } },
      },
      more: null,
    },
  ]
}

/** A venture of the plan keeps its money until the plan says what it needs; one that the plan does not know could only hand it over once. */
function cashOf(books: Books, plan: Plan, { id, name }: Side, today: Day): OneSided[] {
  const accounts = listAccounts(books, { sideId: id, withArchived: true }).filter(isMoney)
  const held = centsToDollars(moneyHeld(balancesOn(books, today), accounts, cardCredits(books)))
  if (held < 1) return []
  const item = cashItem({ id, name })
  const one = { id: item.id, waits: false }
  const { sideVentures, oneOffs } = plan.household
  const venture = sideVentures.find((known) => ventureKey(known.name) === ventureKey(name))
  if (!venture)
    return onceNextMonth(plan, today, {
      ...one,
      name: item.name,
      cost: -held,
      says: `${name} holds ${formatDollars(held)} of its own, which the plan does not count`,
    })
  if (venture.keeps !== undefined) return []
  const household = {
    ...plan.household,
    sideVentures: sideVentures.map((known) => (known === venture ? { ...known, keeps: 0 } : known)),
    oneOffs: oneOffs.filter(({ id }) => id !== one.id),
  }
  return [
    {
      ...one,
      says: `${name} holds ${formatDollars(held)} of its own. The plan lets it keep that for its work, pays its bad months from it, and counts none of it as savings`,
      change: {
        button: 'Plan to hand it to the household',
        note: `${name} hands over what it holds`,
        plan: { ...plan, household },
      },
      more: { text: 'Enter how much it needs', href: '/runway/plan/household' },
    },
  ]
}
