// What the books hold of each worker's pay, and what social security and Medicare should be by the law's rates.
import {
  type Cents,
  cents,
  centsToDollars,
  dollarsToCents,
  negateCents,
  sumCents,
  zeroCents,
} from '#money/cents.ts'
import { payrollTaxRates } from '#rules/data/business-deductions.ts'
import { farmWageTests } from '#rules/data/farm-payroll.ts'
import { wageBase } from '#rules/data/self-employment.ts'
import { lookUp, steadyIndexing, yearsOf } from '#rules/dated.ts'
import { inForce } from '#rules/in-force.ts'
import { farmSide, type SideId } from '../account.ts'
import { paysForWork } from '../schedule-lines.ts'
import type { PaidOn, PayeeSaid } from './payee-totals.ts'

export interface WorkerPay {
  sideId: SideId
  name: string
  /** Wages before anything was kept back: boxes 1, 3 and 5 of Form W-2. */
  grossCents: Cents
  /** Box 2. */
  federalCents: Cents
  /** Boxes 17 and 19. */
  stateCents: Cents
  /** Boxes 4 and 6 together, as kept back. */
  payrollCents: Cents
  /** The employer's own part, as booked. */
  employerCents: Cents
  /** Wages and federal tax kept back, January to December. */
  months: readonly { grossCents: Cents; federalCents: Cents }[]
  due: PayrollTax
}

/** Of one worker; the employer owes as much again. */
export interface PayrollTax {
  /** False where neither of the two tests for farm work is met. */
  isDue: boolean
  socialSecurityWagesCents: Cents
  socialSecurityCents: Cents
  medicareCents: Cents
}

/** Workers of each side, by the entries that name them. */
export const workersPaid = (
  paid: readonly PaidOn[],
  said: readonly PayeeSaid[],
  year: number,
): WorkerPay[] => {
  const workers = nameOfWorker(said)
  const ofWorkers = paid.filter(({ payee }) => workers.has(payee))
  const rows = [...new Set(ofWorkers.map(({ account }) => account.sideId))].flatMap((sideId) =>
    [...new Set(workers.values())].map((name) =>
      payOf(
        sideId,
        name,
        ofWorkers.filter((one) => one.account.sideId === sideId && workers.get(one.payee) === name),
      ),
    ),
  )
  const paidRows = rows.filter(({ grossCents }) => grossCents !== 0)
  return paidRows.map((row) => ({ ...row, due: payrollTax(row, paidRows, year) }))
}

/** Payees of whose pay something was kept back: those are workers, whatever else is said of them (26 USC 3102, 3402). */
export const keptBackFrom = (paid: readonly PaidOn[]): string[] => [
  ...new Set(
    paid
      .filter(
        ({ account: { kind, taxKind } }) =>
          kind === 'liability' && (taxKind === 'payroll' || taxKind === 'federal' || taxKind === 'state'),
      )
      .map(({ payee }) => payee),
  ),
]

/** Each spelling under which workers are paid, with the one name of whom it means. */
export const nameOfWorker = (said: readonly PayeeSaid[]): ReadonlyMap<string, string> => {
  const workers = new Map(said.filter(({ kind }) => kind === 'worker').map(({ name }) => [name, name]))
  for (const { name, sameAs } of said) if (sameAs !== null && workers.has(sameAs)) workers.set(name, sameAs)
  return workers
}

type Pay = Omit<WorkerPay, 'due'>

const payOf = (sideId: SideId, name: string, paid: readonly PaidOn[]): Pay => {
  const sum = (test: (account: PaidOn['account']) => boolean, of = paid) =>
    sumCents(of.filter(({ account }) => test(account)).map(({ amountCents }) => amountCents))
  const employer = sum(({ kind, taxKind }) => kind === 'expense' && taxKind === 'payroll')
  const keptBack = (kinds: readonly string[], of = paid) =>
    negateCents(
      sum(({ kind, taxKind }) => kind === 'liability' && taxKind !== null && kinds.includes(taxKind), of),
    )
  const inMonth = (month: number) => paid.filter(({ day }) => Number(day.slice(5, 7)) === month)
  return {
    sideId,
    name,
    grossCents: sum(paysForWork),
    federalCents: keptBack(['federal']),
    stateCents: keptBack(['state', 'local']),
    // The employer's part is owed on the same account.
    payrollCents: cents(keptBack(['payroll']) - employer),
    employerCents: employer,
    months: Array.from({ length: 12 }, (_, i) => ({
      grossCents: sum(paysForWork, inMonth(i + 1)),
      federalCents: keptBack(['federal'], inMonth(i + 1)),
    })),
  }
}

const payrollTax = ({ sideId, grossCents }: Pay, all: readonly Pay[], year: number): PayrollTax =>
  payrollTaxOn(
    sideId,
    grossCents,
    sumCents(all.filter((one) => one.sideId === farmSide).map((one) => one.grossCents)),
    year,
  )

/**
 * Tax of a worker on so much pay of a year, where all the farm's workers got `ofFarmCents`. Farm work: due from all wages once one
 * worker got, or all together got, the law's amounts (26 USC 3121(a)(8)). Other work: always. Wages of one's own child under 18, of a
 * husband or wife, and in kind have rules of their own.
 */
export const payrollTaxOn = (
  sideId: SideId,
  grossCents: Cents,
  ofFarmCents: Cents,
  year: number,
): PayrollTax => {
  const { oneWorker, allWorkers } = inForce(farmWageTests, year)
  const isDue = sideId !== farmSide || grossCents >= oneWorker * 100 || ofFarmCents >= allWorkers * 100
  return isDue ? { isDue, ...taxOnWages(grossCents, year) } : { isDue, ...noTax }
}

const noTax = {
  socialSecurityWagesCents: zeroCents,
  socialSecurityCents: zeroCents,
  medicareCents: zeroCents,
}

/** Of one worker's wages of a year, where the tax is due. */
export const taxOnWages = (grossCents: Cents, year: number): Omit<PayrollTax, 'isDue'> => {
  const { socialSecurity, medicare } = inForce(payrollTaxRates, year)
  const wages = Math.min(centsToDollars(grossCents), wageBaseOf(year))
  return {
    socialSecurityWagesCents: dollarsToCents(wages),
    socialSecurityCents: dollarsToCents(wages * socialSecurity),
    medicareCents: dollarsToCents(centsToDollars(grossCents) * medicare),
  }
}

const wageBaseOf = (year: number): number =>
  year < yearsOf(wageBase).first ? Number.POSITIVE_INFINITY : lookUp(wageBase, year, steadyIndexing(0)).value
