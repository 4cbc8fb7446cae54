// What each payee was paid in a year, by what for: who gets a Form 1099, and what each worker's wage form says.
import type { Day } from '#calendar/day.ts'
import { type Cents, cents, sumCents } from '#money/cents.ts'
import type { Account, SideId } from '../account.ts'
import { sideKindOf } from '../schedule-lines.ts'
import type { PayeeKind } from './payee-kind.ts'

/** What a day's entries of one payee hold on one account, and whether a card paid them. */
export interface PaidOn {
  payee: string
  account: Pick<Account, 'sideId' | 'kind' | 'scheduleLine' | 'taxKind'>
  isByCard: boolean
  day: Day
  /** Debits positive. */
  amountCents: Cents
}

export interface PayeeSaid {
  name: string
  kind: PayeeKind
  sameAs: string | null
  formOnFile: boolean
}

export interface PayeeTotal {
  name: string
  /** Other spellings that count here. */
  spellings: readonly string[]
  kind: PayeeKind | null
  formOnFile: boolean
  /** Paid for work, not by card: Form 1099-NEC, or wages of a worker. */
  workCents: Cents
  /** Paid for rent, not by card: Form 1099-MISC. */
  rentCents: Cents
  /** For either, by card: the card's processor reports it, nobody else (26 CFR 1.6041-1(a)(1)(iv)). */
  byCardCents: Cents
}

/** What a bank writes in place of a payee, as it knows the paper or the machine and not the person: no form can name it. */
export const isBanksWord = (payee: string): boolean =>
  /^(check|cheque|chk|ck|draft|withdrawal|atm( withdrawal)?|cash( withdrawal)?|debit|payment|transfer|online payment)( paid)?( ?(no\.?|number|#))?[ #:.-]*\d*$/i.test(
    payee.trim(),
  )

export const payeeTotals = (paid: readonly PaidOn[], said: readonly PayeeSaid[]): PayeeTotal[] => {
  const known = new Map(said.map((one) => [one.name, one]))
  const nameOf = (payee: string): string => known.get(payee)?.sameAs ?? payee
  const names = [...new Set(paid.map(({ payee }) => nameOf(payee)))]
  return names
    .map((name): PayeeTotal => {
      const mine = paid.filter(({ payee }) => nameOf(payee) === name)
      const of = (what: 'work' | 'rent', isByCard: boolean) =>
        sumCents(
          mine
            .filter((one) => one.isByCard === isByCard && paidFor(one.account) === what)
            .map(({ amountCents }) => amountCents),
        )
      return {
        name,
        spellings: [...new Set(mine.map(({ payee }) => payee))].filter((payee) => payee !== name).sort(),
        kind: known.get(name)?.kind ?? null,
        formOnFile: known.get(name)?.formOnFile ?? false,
        workCents: of('work', false),
        rentCents: of('rent', false),
        byCardCents: cents(of('work', true) + of('rent', true)),
      }
    })
    .filter(
      ({ workCents, rentCents, byCardCents }) => workCents !== 0 || rentCents !== 0 || byCardCents !== 0,
    )
    .sort((a, b) => b.workCents + b.rentCents - (a.workCents + a.rentCents) || (a.name < b.name ? -1 : 1))
}

/** The forms that a payee gets by the year's line, which is null in years before it is kept here. */
export const formsOf = (total: PayeeTotal, lineCents: Cents | null): ('1099-NEC' | '1099-MISC')[] => {
  if (lineCents === null || total.kind === 'company' || total.kind === 'worker') return []
  return [
    ...(total.workCents >= lineCents ? (['1099-NEC'] as const) : []),
    ...(total.rentCents >= lineCents ? (['1099-MISC'] as const) : []),
  ]
}

/** Hired labor of a farm, wages of a venture: who is paid there is an employee as a rule, not a contractor. */
const laborLines = { farm: '22', venture: '26' } as const

export const isLabor = ({ scheduleLine, ...account }: PaidOn['account']): boolean => {
  const side = sideKindOf(account)
  return side !== 'household' && scheduleLine === laborLines[side]
}

/** Lines under which work of others may stand, and rent. What is bought there from a shop needs no form: its payee is a company. */
const lines = {
  farm: {
    work: ['10', '13', '18', '22', '25', '27', '31', '32a', '32b', '32c', '32d', '32e', '32f'],
    rent: ['24a', '24b'],
  },
  venture: { work: ['8', '10', '11', '17', '21', '26', '37', '48'], rent: ['20a', '20b'] },
} as const

export const paidFor = (account: PaidOn['account']): 'work' | 'rent' | null => {
  const side = sideKindOf(account)
  if (side === 'household' || account.kind !== 'expense' || account.scheduleLine === null) return null
  const { work, rent } = lines[side]
  const has = (list: readonly string[]) => list.includes(account.scheduleLine!)
  return has(work) ? 'work' : has(rent) ? 'rent' : null
}

/** The sides that paid somebody. */
export const sidesOf = (paid: readonly PaidOn[]): SideId[] => [
  ...new Set(paid.map(({ account }) => account.sideId)),
]
