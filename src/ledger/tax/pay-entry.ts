// One worker's pay as one entry: wages, what is kept back, the employer's part, and what goes out; the law's rates propose the middle ones.
import type { Day } from '#calendar/day.ts'
import { yearIn } from '#calendar/month.ts'
import { type Cents, cents, negateCents, sumCents } from '#money/cents.ts'
import type { SideId } from '../account.ts'
import type { EntryDraft } from '../entry.ts'
import { payrollTaxOn, type WorkerPay } from './wages.ts'

export interface PayProposal {
  /** False where the farm's wages are below both of the law's tests, this pay counted. */
  isDue: boolean
  /** To keep back from the worker, and the employer's own part. */
  keptCents: Cents
  employerCents: Cents
}

/**
 * What the year's wages up to this pay call for, less what was kept back and booked before: where a test is met by this pay, all
 * earlier wages of the year are under the tax too (26 USC 3121(a)(8)(B)). `before` are the workers of the year so far.
 */
export const proposedPay = (
  sideId: SideId,
  worker: string,
  grossCents: Cents,
  before: readonly WorkerPay[],
  year: number,
): PayProposal => {
  const own = before.find((one) => one.sideId === sideId && one.name === worker)
  const ofSide = before.filter((one) => one.sideId === sideId)
  const all = sumCents([grossCents, ...ofSide.map((one) => one.grossCents)])
  const due = payrollTaxOn(sideId, cents((own?.grossCents ?? 0) + grossCents), all, year)
  const tax = due.socialSecurityCents + due.medicareCents
  return {
    isDue: due.isDue,
    keptCents: cents(Math.max(0, tax - (own?.payrollCents ?? 0))),
    employerCents: cents(Math.max(0, tax - (own?.employerCents ?? 0))),
  }
}

export interface Pay {
  id: string
  sideId: SideId
  worker: string
  day: Day
  grossCents: Cents
  federalCents: Cents
  stateCents: Cents
  /** Social Security and Medicare of the worker. */
  keptCents: Cents
  employerCents: Cents
}

export interface PayAccounts {
  wages: number
  money: number
  federal: number
  /** Null where the books have none. */
  state: number | null
  /** Owed: the worker's and the employer's part. */
  payroll: number
  employer: number
}

export const netOf = ({ grossCents, federalCents, stateCents, keptCents }: Pay): Cents =>
  cents(grossCents - federalCents - stateCents - keptCents)

export const payEntry = (pay: Pay, accounts: PayAccounts): EntryDraft => ({
  id: pay.id,
  sideId: pay.sideId,
  day: pay.day,
  payee: pay.worker,
  memo: `Pay, ${yearIn(pay.day)}`,
  source: 'form',
  lines: [
    { accountId: accounts.wages, amountCents: pay.grossCents },
    { accountId: accounts.employer, amountCents: pay.employerCents },
    { accountId: accounts.federal, amountCents: negateCents(pay.federalCents) },
    ...(accounts.state === null
      ? []
      : [{ accountId: accounts.state, amountCents: negateCents(pay.stateCents) }]),
    { accountId: accounts.payroll, amountCents: negateCents(cents(pay.keptCents + pay.employerCents)) },
    { accountId: accounts.money, amountCents: negateCents(netOf(pay)) },
  ].filter(({ amountCents }) => amountCents !== 0),
})
