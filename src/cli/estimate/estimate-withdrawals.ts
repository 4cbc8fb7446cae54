// Money taken out of retirement accounts in a yearly estimate: how much of it is income, and what bears the additional tax.
import { z } from 'zod'
import { earlyWithdrawalAge, hsaFreeAge, separationAge } from '#rules/data/retirement-accounts.ts'
import type { HouseholdYear } from '#rules/household-year.ts'
import { inForce } from '#rules/in-force.ts'
import { dollarsInput } from './estimate-fields.ts'

const age = () =>
  z
    .number({ error: 'Enter an age, like 56 or 59.5' })
    .min(0, 'Enter an age of 0 or more')
    .max(130, 'Enter an age up to 130')

/** `age` of the owner that day. */
export const withdrawalInput = z
  .strictObject({
    from: z.enum(['ira', 'workPlan', 'roth', 'hsa'], { error: 'Enter one of: ira, workPlan, roth, hsa' }),
    amount: dollarsInput(),
    age: age(),
    contributionsLeft: dollarsInput().default(0),
    forCare: dollarsInput().default(0),
    leftWorkInYearOfAge: age().optional(),
    secondPerson: z.boolean({ error: 'Enter true or false' }).default(false),
    evenPayment: z.boolean({ error: 'Enter true or false' }).default(false),
    inherited: z.boolean({ error: 'Enter true or false' }).default(false),
  })
  .refine((one) => one.leftWorkInYearOfAge === undefined || one.from === 'workPlan', {
    error: 'Only a plan at work asks when that employer was left',
    path: ['leftWorkInYearOfAge'],
  })
  .refine((one) => one.forCare === 0 || one.from === 'hsa', {
    error: 'Only health savings ask what was for care',
    path: ['forCare'],
  })

type Withdrawal = z.output<typeof withdrawalInput>

export const addWithdrawal = (household: HouseholdYear, one: Withdrawal, year: number): void => {
  if (one.from === 'hsa') {
    addHealthSavings(household, one, year)
    return
  }
  const taxed = taxedPart(one)
  household.iraDistributions += taxed
  if (one.secondPerson) household.secondIraDistributions += taxed
  const place = one.secondPerson ? 1 : 0
  if (one.inherited) household.inheritedIra[place] = household.inheritedIra[place]! + taxed
  if (!isFree(one, year)) household.earlyWithdrawalAmount += taxed
}

/** Form 8889, lines 14 to 17b: what paid for care is free, the rest is income, with an addition before 65. */
const addHealthSavings = (household: HouseholdYear, one: Withdrawal, year: number): void => {
  const taxed = Math.max(0, one.amount - one.forCare)
  household.healthSavingsTaxed += taxed
  if (one.age < inForce(hsaFreeAge, year)) household.healthSavingsEarly += taxed
}

/** Roth contributions come out first and free, and from 59½ on all of it (26 USC 408A(d)(1), (2), (4)). */
const taxedPart = ({ from, amount, age: years, contributionsLeft }: Withdrawal): number =>
  from !== 'roth' ? amount : years >= fullAge ? 0 : Math.max(0, amount - contributionsLeft)

/** No additional tax (26 USC 72(t)(2)(A)(i), (ii), (iv), (v)). */
const isFree = (
  { age: years, evenPayment, inherited, leftWorkInYearOfAge }: Withdrawal,
  year: number,
): boolean =>
  years >= fullAge || evenPayment || inherited || (leftWorkInYearOfAge ?? 0) >= inForce(separationAge, year)

const fullAge = inForce(earlyWithdrawalAge, Number.POSITIVE_INFINITY)
