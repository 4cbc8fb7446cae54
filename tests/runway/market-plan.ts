// A plan with nothing in it but one account and what is taken out of it: how the projection answers questions about savings alone.
import { type Plan, planSchema } from '#plan/plan.ts'

export interface MarketPlan {
  balance: number
  years: number
  /** Yearly effective return when the account holds bills only. */
  bills?: number
  stocks?: number
  bonds?: number
  inflation?: number
  priceSteps?: 'yearly' | 'monthly'
  timing?: 'start' | 'end'
  /** Each year's withdrawal in first prices, in this month of the year, from this plan year on. */
  yearly?: { amount: number; month: number; firstYear?: number; times: number; todaysPrices?: boolean }
  /** Spent each month, in first prices. */
  monthly?: number
}

export const marketPlan = (of: MarketPlan): Plan =>
  planSchema.parse({
    startMonth: '2027-01',
    years: of.years,
    household: {
      living: of.monthly ? [{ id: 'spending', name: 'Spending', perMonth: of.monthly }] : [],
      oneOffs: of.yearly
        ? Array.from({ length: of.yearly.times }, (_, k) => ({
            id: `withdrawal-${k}`,
            name: 'Withdrawal',
            month: `${2027 + (of.yearly!.firstYear ?? 0) + k}-${String(of.yearly!.month).padStart(2, '0')}`,
            cost: of.yearly!.amount,
            todaysPrices: of.yearly!.todaysPrices ?? true,
          }))
        : [],
      floor: { kind: 'dollars', dollars: 0 },
    },
    savings: {
      accounts: [
        {
          id: 'account',
          name: 'Account',
          kind: 'cash',
          balance: of.balance,
          mix:
            of.stocks === undefined
              ? { bills: 1 }
              : { stocks: of.stocks, bonds: of.bonds ?? Math.round((1 - of.stocks) * 1e6) / 1e6 },
        },
      ],
    },
    tax: { method: 'none' },
    assumptions: {
      inflation: of.inflation ?? 0,
      bills: of.bills ?? 0,
      priceSteps: of.priceSteps ?? 'yearly',
      timing: of.timing ?? 'start',
    },
  })
