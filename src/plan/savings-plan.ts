// Savings in the plan: accounts with mix, basis and fees, the order in which they are spent and refilled, and the reserve.
import { z } from 'zod'
import { type Month, parseMonth } from '#calendar/month.ts'
import { evenPaymentMethods } from '#rules/even-payments.ts'
import { heirKinds, type InheritedAccount } from '#rules/inherited-distributions.ts'
import { type OwnPlanKind, ownPlanKinds } from '#rules/own-plan-limits.ts'
import { dollars, idField, monthField, nameField, rate, share, wholeNumber } from './fields.ts'
import { conversionSchema } from './savings/conversions.ts'

const mixSchema = z
  .object({
    stocks: share().default(0).meta({ title: 'Stocks' }),
    bonds: share().default(0).meta({ title: 'Bonds' }),
    bills: share().default(0).meta({ title: 'Bills or savings rate' }),
  })
  .refine((mix) => mix.stocks + mix.bonds + mix.bills <= 1 + 1e-9, {
    error: 'The shares of stocks, bonds and bills add up to more than 100%',
    path: ['bills'],
  })

/** Of few accounts, and never of cash: folded until they say something. */
const evenPayments = { group: 'Even payments before 59½', seldom: true } as const
const ofInherited = { group: 'Inherited from somebody', seldom: true } as const

const accountSchema = z.object({
  id: idField(),
  name: nameField().meta({ title: 'Account' }),
  kind: z.enum(['cash', 'taxable', 'traditional', 'roth', 'health']).meta({
    title: 'Kind',
    labels: {
      cash: 'Cash and savings',
      taxable: 'Taxable investments',
      traditional: 'Traditional retirement',
      roth: 'Roth retirement',
      health: 'Health savings (HSA)',
    },
    description: 'From 2027 a saver’s match for small incomes comes into a traditional account only',
  }),
  owner: idField().optional().meta({
    title: 'Owner',
    names: 'adult',
    description: 'Whose age counts for traditional, Roth and health savings accounts',
  }),
  balance: dollars().meta({ title: 'Balance', told: 'dollars on that day', unit: 'dollars' }),
  basis: dollars().optional().meta({
    title: 'Basis',
    told: 'dollars on that day',
    unit: 'dollars',
    description:
      'Taxable: what was paid for the holdings. Roth: contributions that come out free. Empty: all of the balance',
  }),
  rothSince: wholeNumber(1998, 2150).optional().meta({
    title: 'Roth: the first year with money in it',
    told: 'calendar year',
    description:
      'The first tax year of any Roth account of its owner. Until five years from then on earnings are taxed at any age. Empty: long ago where it holds money, else the year something goes in',
  }),
  mix: mixSchema.default({ stocks: 0, bonds: 0, bills: 0 }).meta({
    title: 'Mix: what it earns by',
    description:
      'Left empty, the account earns nothing, and so does what is left of 100%. A savings account has 100% at the bills or savings rate, which “Growth and returns” gives for all; one that pays less has less',
  }),
  fee: rate(0, 0.05).default(0).meta({ title: 'Fees', unit: 'rate a year' }),
  bookAccount: wholeNumber(1, 99_999).optional().meta({
    title: 'Number of its account in the books',
    told: 'account number',
    description:
      'Cash alone: it then holds what the books have there. Empty: a part of all other cash of the books',
  }),
  heldAs: z
    .enum(['ira', 'workPlan', ...ownPlanKinds])
    .default('ira')
    .meta({
      title: 'A retirement account is held as',
      labels: {
        ira: 'IRA',
        workPlan: 'Plan at work',
        sep: 'SEP of the own business',
        simple: 'SIMPLE of the own business',
        solo401k: 'Solo 401(k) of the own business',
      },
      description:
        'A plan at work takes deferrals from that pay up to its own limit, and while the pay goes on its owner counts as covered at work. One of the own business takes what the owner’s profit allows, and is deducted; it is a traditional account',
    }),
  leftWork: monthField().optional().meta({
    title: 'Left that employer in',
    description: 'From the year of 55 on, money of that plan comes out without the early-withdrawal addition',
  }),
  evenPaymentsFrom: monthField()
    .optional()
    .meta({
      ...evenPayments,
      title: 'Even payments from',
      description:
        'Without the early-withdrawal addition, for five years or to 59½, whichever is later. Nothing else is taken from this account or put into it until then',
    }),
  evenPaymentsBy: z
    .enum(evenPaymentMethods)
    .default('lifeExpectancy')
    .meta({
      ...evenPayments,
      title: 'Even payments by',
      labels: { lifeExpectancy: 'Life expectancy', amortization: 'Amortization', annuity: 'Annuity factor' },
      description: 'Life expectancy: worked out again each January. The other two: the same every year',
    }),
  evenPaymentsAmount: dollars()
    .optional()
    .meta({
      ...evenPayments,
      title: 'Even payments a year',
      unit: 'dollars a year',
      description: 'Empty: worked out on the balance when they begin, or now where they have begun',
    }),
  evenPaymentsRate: rate(0, 0.2)
    .default(0.05)
    .meta({
      ...evenPayments,
      title: 'Rate of the amortization',
      unit: 'rate a year',
      description: 'At most 5%, or 120% of the federal mid-term rate where that is higher',
    }),
  evenPaymentsFactor: z
    .number({ error: 'Enter the annuity factor, like 18.16' })
    .min(1, { error: 'Enter 1 or more' })
    .max(100, { error: 'Enter up to 100' })
    .optional()
    .meta({
      ...evenPayments,
      title: 'Annuity factor',
      told: 'dollars for a dollar a year for life',
      description:
        'What a dollar a year for life is worth at your age, by the mortality table of Treas. Reg. 1.401(a)(9)-9(e) and a rate no higher than above. Ask who holds the account, or your preparer',
    }),
  inherited: z
    .enum(heirKinds)
    .optional()
    .meta({
      ...ofInherited,
      title: 'Inherited',
      labels: {
        tenYears: 'Yes, to be emptied within ten years',
        lifetime: 'Yes, spread over the heir’s own life expectancy',
        spouse: 'Yes, kept as the heir of a husband or wife',
      },
      description:
        'Empty: the owner’s own, as one that a widow or widower made her or his own. Ten years for most heirs of deaths from 2020 on; life expectancy for one not more than ten years younger than the one who died, disabled or chronically ill. Nothing goes in, and no age makes taking out early',
    }),
  inheritedIn: monthField()
    .optional()
    .meta({ ...ofInherited, title: 'Inherited from one who died in' }),
  inheritedFromBorn: wholeNumber(1880, 2100)
    .optional()
    .meta({
      ...ofInherited,
      title: 'Who was born in the year',
      told: 'calendar year',
      description:
        'Says whether yearly minimums had begun: then they go on within the ten years. Empty: they are taken to have',
    }),
  inheritedHeld: z
    .enum(['among', 'beside'])
    .optional()
    .meta({
      ...ofInherited,
      title: 'In the books it is held',
      labels: { among: 'Together with own money', beside: 'Nowhere: it goes on as planned' },
      description:
        'An account of the books that bears its name is always taken for it. Empty: not known yet; it counts together with your own money of its kind, so that nothing counts twice',
    }),
  inheritedTaken: z
    .enum(['least', 'evenly'])
    .optional()
    .meta({
      ...ofInherited,
      title: 'Of it is taken',
      labels: { least: 'What the law asks for each year', evenly: 'An even part of what is left each year' },
      description: 'Evenly: over the years left of the ten. Taken each January. Empty: what the law asks for',
    }),
})

const contributionSchema = z.object({
  id: idField(),
  account: idField().meta({ title: 'Into account', names: 'account' }),
  perMonth: dollars().meta({ title: 'A month', unit: 'dollars a month' }),
  from: monthField().optional().meta({ title: 'From' }),
  to: monthField().optional().meta({ title: 'Until, that month included' }),
})

/** Kinds of account, as an order of spending names them; health savings have a place without being named. And what was put into Roth accounts, which comes out free at any age. */
const spendableKinds = ['cash', 'taxable', 'traditional', 'roth'] as const
export const rothContributions = 'roth-contributions'
/** Health savings as far as there is care that they have not paid, which comes out free of tax. */
export const healthForCare = 'health-for-care'
export const spendWords: readonly string[] = [...spendableKinds, rothContributions, 'health', healthForCare]

const spending = 'How savings are spent'
const filling = 'What a surplus fills'
const required = { group: 'Required distributions', seldom: true } as const

export const savingsSchema = z.object({
  accounts: z
    .array(accountSchema)
    .max(12)
    .default([
      {
        id: 'savings',
        name: 'Savings',
        kind: 'cash',
        balance: 0,
        mix: { stocks: 0, bonds: 0, bills: 0 },
        fee: 0,
        heldAs: 'ira',
        evenPaymentsBy: 'lifeExpectancy',
        evenPaymentsRate: 0.05,
      },
    ])
    .meta({ title: 'Accounts' }),
  spendOrder: z
    .array(idField().meta({ words: true }))
    .max(16)
    .default([...spendableKinds])
    .meta({
      title: 'Spent in this order',
      group: spending,
      description:
        'Kinds: cash, taxable, traditional, roth, health; roth-contributions for what was put into Roth accounts, health-for-care for health savings as far as there is care to pay. An account’s short name gives it a place of its own. Health savings that are not named pay care first, and anything else last',
    }),
  retirementIsSpendable: z.boolean().default(false).meta({
    title: 'Count retirement accounts in months left',
    group: spending,
    description: 'After the tax and any early-withdrawal addition they would cost today',
  }),
  spendRetirementBeforeAge: z.boolean().default(true).meta({
    title: 'Spend retirement accounts before 59½ rather than go short',
    group: spending,
    description: 'With the early-withdrawal addition',
  }),
  drawsToHoldFloor: z.boolean().default(true).meta({
    title: 'Draw what the farm can spare before savings fall below the floor',
    group: spending,
    description:
      'Beyond the planned draws, as far as the farm keeps its reserve through the next twelve expected months',
  }),
  reserveMonths: z.number({ error: 'Enter months of costs, like 6' }).min(0).max(1200).default(12).meta({
    title: 'Emergency fund',
    group: filling,
    unit: 'months',
    description: 'A surplus fills cash up to this many months of costs first',
  }),
  contributions: z.array(contributionSchema).max(20).default([]).meta({ title: 'Paid in every month' }),
  conversions: z.array(conversionSchema).max(12).default([]).meta({
    title: 'Converted into Roth accounts',
    description:
      'Income of its year, without the early-withdrawal addition; what the law asks to be taken out goes first',
  }),
  surplusToRetirement: share().default(0).meta({
    title: 'Surplus to retirement accounts',
    group: filling,
    unit: 'share',
    description:
      'Share of a surplus above the emergency fund, within the year’s limits; the rest goes to taxable savings',
  }),
  requiredDistributionsFrom: wholeNumber(70, 80)
    .optional()
    .meta({
      title: 'Required distributions from age',
      ...required,
      unit: 'years',
      description: 'Empty: the age the law sets for the year of birth',
    }),
  requiredDistributionsTo: idField()
    .optional()
    .meta({
      title: 'Required distributions go to account',
      ...required,
      names: 'account',
      description: 'Empty: the first taxable account, or cash where there is none',
    }),
})

export type Account = z.infer<typeof accountSchema>

/** Whether an account is held by a plan of its owner's own business. */
export const isOwnPlan = (heldAs: string | null | undefined): heldAs is OwnPlanKind =>
  ownPlanKinds.some((one) => one === heldAs)

export type AccountKind = Account['kind']

/** Kinds that are one person's by law. */
export const ownedKinds: readonly AccountKind[] = ['traditional', 'roth', 'health']
export type Savings = z.infer<typeof savingsSchema>

/** `unsaid`: when the owner is taken to have died where the plan says no month. Only for accounts that say they were inherited. */
export const inheritedAccountOf = (account: Account, heirBorn: number, unsaid: Month): InheritedAccount => ({
  heir: account.inherited ?? 'tenYears',
  diedIn: account.inheritedIn === undefined ? unsaid : parseMonth(account.inheritedIn)!,
  ownerBorn: account.inheritedFromBorn ?? null,
  isRoth: account.kind === 'roth',
  heirBorn,
})
