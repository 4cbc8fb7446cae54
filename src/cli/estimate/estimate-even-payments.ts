// `estimate --kind even-payments`: what an account pays before 59½ without the additional tax, by each method, and until when.
import { z } from 'zod'
import { monthOfDay } from '#calendar/day.ts'
import { type Month, monthText, parseMonth, yearOf } from '#calendar/month.ts'
import { singleLifeExpectancy } from '#rules/data/inherited-accounts.ts'
import { earlyWithdrawalAge, evenPaymentRules } from '#rules/data/retirement-accounts.ts'
import {
  type EvenPaymentMethod,
  evenPayment,
  evenPaymentsEnd,
  hasLifeExpectancy,
  highestEvenRate,
} from '#rules/even-payments.ts'
import { inForce } from '#rules/in-force.ts'
import { CommandError } from '#src/cli/command.ts'
import { dayInput, dollarsInput, factLine } from './estimate-fields.ts'
import { estimateKind } from './estimate-kind.ts'

const percent = z
  .number({ error: 'Enter a percentage, like 4.2' })
  .min(0, 'Enter 0 or more')
  .max(20, 'Enter up to 20')

export const evenPaymentsKind = estimateKind({
  schema: z.strictObject({
    born: dayInput(),
    from: z
      .string({ error: 'Enter a month, like 2027-01' })
      .refine((text) => parseMonth(text) !== null, 'Enter a month, like 2027-01'),
    balance: dollarsInput(),
    ratePercent: percent.default(5),
    midTermRatePercent: percent.default(0),
    annuityFactor: z
      .number({ error: 'Enter the annuity factor, like 18.16' })
      .min(1, 'Enter 1 or more')
      .max(100, 'Enter up to 100')
      .optional(),
  }),
  help: `even-payments: substantially equal payments from a retirement account before 59½, free of the additional tax

  born                 "1976-02-10"
  from                 "2027-01": month of the first payment
  balance              of the account then, dollars
  ratePercent          of the amortization (5); at most 5, or 120 % of the federal mid-term rate of one of the two months before
  midTermRatePercent   that rate, where it allows more than 5 (0)
  annuityFactor        what a dollar a year for life is worth at that age, by the mortality table of Treas. Reg.
                       1.401(a)(9)-9(e) at a rate no higher; who holds the account, or a preparer, has it (none)

Prints: age, lifeExpectancy (years), byLifeExpectancy (first year's payment; worked out again each year), byAmortization and,
with a factor, byAnnuity (the same every year), until (first month in which they may change or end), trace. The mortality table
is not held here. A change before that month brings the additional tax of all years back, with interest.

Example: {"born":"1976-02-10","from":"2026-01","balance":400000}`,
  run: (input) => {
    const from = parseMonth(input.from)!
    const born = monthOfDay(input.born)
    const age = yearOf(from) - yearOf(born)
    const free = born + inForce(earlyWithdrawalAge, yearOf(from)) * 12
    if (!hasLifeExpectancy(age) || from >= free)
      throw new CommandError('from: Enter a month in which the owner is not yet 59½', 2)
    const highest = highestEvenRate(input.midTermRatePercent / 100) * 100
    if (input.ratePercent > highest + 1e-9)
      throw new CommandError(`ratePercent: Enter at most ${Math.round(highest * 100) / 100}`, 2)
    const { annuityFactor: factor } = input
    const paid = (by: EvenPaymentMethod) =>
      Math.round(evenPayment(by, input.balance, age, input.ratePercent / 100, factor ?? 0) * 100) / 100
    const lifeExpectancy = inForce(singleLifeExpectancy, yearOf(from))[age]!
    const until = evenPaymentsEnd(from, free)
    return {
      age,
      lifeExpectancy,
      byLifeExpectancy: paid('lifeExpectancy'),
      byAmortization: paid('amortization'),
      ...(factor === undefined ? {} : { byAnnuity: paid('annuity') }),
      until: monthText(until as Month),
      trace: [
        factLine('byLifeExpectancy', paid('lifeExpectancy'), singleLifeExpectancy, {
          balance: input.balance,
          years: lifeExpectancy,
        }),
        factLine('byAmortization', paid('amortization'), evenPaymentRules, {
          balance: input.balance,
          years: lifeExpectancy,
          ratePercent: input.ratePercent,
        }),
        ...(factor === undefined
          ? []
          : [
              factLine('byAnnuity', paid('annuity'), evenPaymentRules, {
                balance: input.balance,
                annuityFactor: factor,
              }),
            ]),
      ],
    }
  },
})
