// A loan as the plan writes it, the farm's and the household's alike: what is owed, its terms, and the account that holds it in the books.
import { z } from 'zod'
import { formatDollarsAndCents } from '#money/format.ts'
import { largestAmount, monthTextSchema, tooLarge } from './seasonal.ts'

const amount = z
  .number({ error: 'Enter an amount, like 18500' })
  .min(0, { error: 'Enter zero or more' })
  .max(largestAmount, { error: tooLarge })

/** Longest that a loan without a number of payments is followed: a hundred years. */
export const longestLoan = 1200

export const loanSchema = z
  .object({
    id: z.string().min(1, { error: 'Give it a short name for reference' }),
    name: z.string().min(1, { error: 'Give it a name' }).meta({ title: 'Loan' }),
    principal: amount.meta({
      title: 'Owed when it begins',
      told: 'dollars on that day',
      unit: 'dollars',
      description: 'For one that runs already: what is owed at the end of the month before the plan’s first',
    }),
    yearlyRate: z
      .number({ error: 'Enter a yearly rate, like 6.5%' })
      .min(0, { error: 'Enter a rate of 0% or more' })
      .max(0.5, { error: 'Enter a rate of at most 50%' })
      .meta({ title: 'Rate', unit: 'rate a year' }),
    months: z
      .number({ error: 'Enter a whole number from 1 to 600' })
      .int({ error: 'Enter a whole number' })
      .min(1, { error: 'Enter 1 or more' })
      .max(600, { error: 'Enter 600 or less' })
      .optional()
      .meta({
        title: 'Payments left',
        told: 'payments',
        description: 'The last one pays all that is still owed',
      }),
    paymentPerMonth: amount.optional().meta({
      title: 'Payment a month',
      unit: 'dollars a month',
      description:
        'Principal and interest alone. Empty: equal payments over the number left. 0: all of it with its interest in the last one, like a loan for the season that is paid at harvest',
    }),
    escrowPerMonth: amount.optional().meta({
      title: 'Taxes and insurance paid with it',
      unit: 'dollars a month',
      description: 'Escrow, if the lender collects it: it stays among the other costs, not in the payment',
    }),
    start: monthTextSchema.meta({
      title: 'Begins',
      description: 'The month before the first payment, like 2027-03',
    }),
    drawn: z.boolean().default(false).meta({
      title: 'Its money comes in when it begins',
      description: 'For a loan still to be taken',
    }),
    onRealEstate: z.boolean().default(false).meta({
      title: 'Secured by land, buildings or the home',
      description: 'Decides under which interest its payments are booked',
    }),
    bookAccount: z
      .number({ error: 'Enter the account’s number, like 2200' })
      .int({ error: 'Enter a whole number' })
      .min(1, { error: 'Enter 1 or more' })
      .max(99_999, { error: 'Enter 99999 or less' })
      .optional()
      .meta({
        title: 'Number of its account in the books',
        told: 'account number',
        description: 'Its payments are then split into interest and principal as they are sorted',
      }),
  })
  .superRefine((loan, context) => {
    const fault = (path: string, message: string) =>
      context.addIssue({ code: 'custom', path: [path], message })
    if (loan.months !== undefined) return
    if (loan.paymentPerMonth === undefined)
      fault('paymentPerMonth', 'Enter the payment a month, or how many payments are left')
    else if (loan.principal > 0 && loan.paymentPerMonth <= (loan.principal * loan.yearlyRate) / 12)
      fault(
        'paymentPerMonth',
        `Interest alone is ${formatDollarsAndCents((loan.principal * loan.yearlyRate) / 12)} a month: enter a larger payment, or how many payments are left`,
      )
  })

export type Loan = z.infer<typeof loanSchema>
