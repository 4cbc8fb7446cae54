// What may go into retirement accounts in a year: the law's limit, and not more than the year earns (26 USC 219(b)(1), 408A(c)(2)).
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'

/** Ann, 41, with a gift of 40,000 in March 2026 and pay of so much a month; all that is left over goes to her Roth account. */
const rothAtYearEnd = (payPerMonth: number, method: 'law' | 'none' = 'law') => {
  const plan = planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [{ id: 'ann', name: 'Ann', born: '1985-03-10', planToAge: 60 }],
      pay: [{ id: 'pay', name: 'Pay', person: 'ann', perMonth: payPerMonth }],
      living: [{ id: 'living', name: 'Living', perMonth: 100 }],
      oneOffs: [{ id: 'gift', name: 'Gift', month: '2026-03', cost: -40_000 }],
    },
    savings: {
      accounts: [
        { id: 'cash', name: 'Cash', kind: 'cash', balance: 5000 },
        { id: 'roth', name: 'Roth', kind: 'roth', balance: 0, mix: { stocks: 0, bonds: 0, bills: 1 } },
      ],
      reserveMonths: 0,
      surplusToRetirement: 1,
    },
    tax: { method },
    assumptions: { inflation: 0, wageGrowth: 0, bills: 0 },
  })
  return project(plan).months[11]!.roth
}

test('contributions stop at the year’s limit where more is earned, and at what is earned where less is', () => {
  expect(rothAtYearEnd(2000)).toBeCloseTo(7500, 6)
  expect(rothAtYearEnd(400)).toBeCloseTo(4800, 6)
  expect(rothAtYearEnd(0)).toBe(0)
  expect(rothAtYearEnd(400, 'none')).toBeCloseTo(4800, 6)
})

/** A couple of 45 with so much pay and what is left over going to one account of hers; a plan at work covers him where he has one. */
const putAsideIn2026 = (pay: number, kind: 'traditional' | 'roth', hisPlanAtWork: boolean) => {
  const plan = planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [
        { id: 'ann', name: 'Ann', born: '1981-03-10', planToAge: 60 },
        { id: 'bo', name: 'Bo', born: '1981-03-10', planToAge: 60 },
      ],
      pay: [{ id: 'pay', name: 'Pay', person: 'bo', perMonth: pay / 12 }],
    },
    savings: {
      accounts: [
        { id: 'cash', name: 'Cash', kind: 'cash', balance: 100_000 },
        { id: 'ira', name: 'IRA', kind, owner: 'ann', balance: 0 },
        { id: 'bos', name: 'Plan', kind: 'traditional', heldAs: 'workPlan', owner: 'bo', balance: 1 },
      ].slice(0, hisPlanAtWork ? 3 : 2),
      contributions: [{ id: 'ira', account: 'ira', perMonth: 1000 }],
      spendOrder: ['cash'],
    },
    assumptions: { inflation: 0, wageGrowth: 0, bills: 0 },
  })
  return project(plan).months[11]![kind] - (hisPlanAtWork && kind === 'traditional' ? 1 : 0)
}

test('a Roth IRA takes what income allows: 242,000 to 252,000 on a joint return of 2026 (26 USC 408A(c)(3))', () => {
  expect(putAsideIn2026(240_000, 'roth', false)).toBeCloseTo(7500, 6)
  expect(putAsideIn2026(247_000, 'roth', false)).toBeCloseTo(3750, 6)
  expect(putAsideIn2026(260_000, 'roth', false)).toBe(0)
})

test('a traditional IRA takes what may be deducted: to the limit without a plan at work, to 242,000 beside a spouse who has one (26 USC 219(g)(7))', () => {
  expect(putAsideIn2026(260_000, 'traditional', false)).toBeCloseTo(7500, 6)
  expect(putAsideIn2026(240_000, 'traditional', true)).toBeCloseTo(7500, 6)
  expect(putAsideIn2026(247_000, 'traditional', true)).toBeCloseTo(3750, 6)
  expect(putAsideIn2026(260_000, 'traditional', true)).toBe(0)
})

test('deferrals to a plan at work stop at its own limit or at the pay, and lower the year’s taxed pay (26 USC 402(g), 414(v))', () => {
  const yearWith = (pay: number, born: string, kind = 'traditional') => {
    const plan = planSchema.parse({
      startMonth: '2026-01',
      household: {
        people: [{ id: 'ann', name: 'Ann', born, planToAge: 80 }],
        pay: [{ id: 'pay', name: 'Pay', person: 'ann', perMonth: pay / 12 }],
      },
      savings: {
        accounts: [
          { id: 'cash', name: 'Cash', kind: 'cash', balance: 100_000 },
          { id: 'plan', name: 'Plan', kind, heldAs: 'workPlan', balance: 0 },
        ],
        contributions: [{ id: 'plan', account: 'plan', perMonth: 4000 }],
        spendOrder: ['cash'],
      },
      assumptions: { inflation: 0, wageGrowth: 0, bills: 0 },
    })
    const { months, years } = project(plan)
    return { put: months[11]!.traditional + months[11]!.roth, income: years[0]!.adjustedGrossIncome }
  }
  expect(yearWith(90_000, '1985-03-10')).toEqual({ put: 24_500, income: 65_500 })
  expect(yearWith(90_000, '1970-03-10').put).toBeCloseTo(32_500, 6)
  expect(yearWith(90_000, '1985-03-10', 'roth').income).toBeCloseTo(90_000, 6)
  expect(yearWith(12_000, '1985-03-10').put).toBeCloseTo(12_000, 6)
})

/** Someone with 400,000 in one account and 30,000 a year of costs that nothing else pays, in 2026. */
const costsFrom = (born: string, account: object) => {
  const plan = planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [{ id: 'ann', name: 'Ann', born, planToAge: 90 }],
      living: [{ id: 'living', name: 'Living', perMonth: 2500 }],
    },
    savings: {
      accounts: [
        { id: 'cash', name: 'Cash', kind: 'cash', balance: 0 },
        { id: 'saved', name: 'Saved', kind: 'traditional', balance: 400_000, ...account },
      ],
    },
    // A farmer's dates: nothing is paid ahead in the year itself, which would have to be taken out as well.
    tax: { lastYear: { farmShare: 1 } },
    assumptions: { inflation: 0, wageGrowth: 0, bills: 0 },
  })
  return project(plan)
}

test('who leaves a job in the year of 55 or later takes that plan’s money without the addition (26 USC 72(t)(2)(A)(v))', () => {
  const taxOf = (account: object) => costsFrom('1970-12-20', account).years[0]!.tax
  const early = taxOf({})
  const free = taxOf({ heldAs: 'workPlan', leftWork: '2025-02' })
  expect(early - free).toBeCloseTo(3000, 2)
  expect(taxOf({ heldAs: 'workPlan', leftWork: '2024-12' })).toBeCloseTo(early, 6)
  expect(taxOf({ heldAs: 'ira', leftWork: '2025-02' })).toBeCloseTo(early, 6)
})

test('even payments are free of the addition, bind the account, and go on for five years or to 59½ (26 USC 72(t)(2)(A)(iv), (4); Notice 2022-6)', () => {
  // Single Life Table at 50: 36.2 years. 400,000 ÷ 36.2 = 11,049.72; at 5 %: 400,000 × 0.05 ÷ (1 − 1.05^−36.2) = 24,124.89.
  const even = { evenPaymentsFrom: '2026-01', evenPaymentsRate: 0.05 }
  const amortized = costsFrom('1976-02-10', { ...even, evenPaymentsBy: 'amortization' })
  const byLife = costsFrom('1976-02-10', { ...even, evenPaymentsBy: 'lifeExpectancy' })
  const paidIn = (course: typeof byLife, year: number) =>
    course.months
      .filter(({ month }) => month.startsWith(String(year)))
      .reduce((sum, one) => sum + one.withdrawnTraditional, 0)
  expect(paidIn(byLife, 2026)).toBeCloseTo(11_049.72, 2)
  expect(paidIn(byLife, 2027)).toBeCloseTo((400_000 - 11_049.72) / 35.3, 2)
  expect(paidIn(amortized, 2026)).toBeCloseTo((400_000 * 0.05) / (1 - 1.05 ** -36.2), 2)
  expect(paidIn(amortized, 2034)).toBeCloseTo(paidIn(amortized, 2026), 6)
  // What they do not cover is not taken from the account: 30,000 less 24,125 goes short.
  expect(amortized.months[0]!.unmetNeed).toBeGreaterThan(0)
  expect(costsFrom('1976-02-10', {}).years[0]!.tax - amortized.years[0]!.tax).toBeGreaterThan(3000)
  // 59½ is reached in August 2035, which is later than five years: from then on the account is free.
  expect(amortized.months.find(({ month }) => month === '2035-07')!.unmetNeed).toBeGreaterThan(0)
  expect(amortized.months.find(({ month }) => month === '2035-09')!.unmetNeed).toBe(0)
  expect(
    paidIn(
      costsFrom('1976-02-10', { ...even, evenPaymentsBy: 'amortization', evenPaymentsAmount: 12_000 }),
      2026,
    ),
  ).toBeCloseTo(12_000, 6)
  // By an annuity factor the payment stays as well; a plan that does not say the factor pays nothing evenly.
  const byAnnuity = costsFrom('1976-02-10', { ...even, evenPaymentsBy: 'annuity', evenPaymentsFactor: 16 })
  expect(paidIn(byAnnuity, 2026)).toBeCloseTo(25_000, 6)
  expect(paidIn(byAnnuity, 2034)).toBeCloseTo(25_000, 6)
  expect(costsFrom('1976-02-10', { ...even, evenPaymentsBy: 'annuity' }).months).toEqual(
    costsFrom('1976-02-10', {}).months,
  )
})

/** A farm year of 60,000 profit by one person in 2026, with more offered to the plan than it can take. */
const ownPlanIn2026 = (heldAs: string, more: object = {}) => {
  const plan = planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [{ id: 'ann', name: 'Ann', born: '1985-03-10', planToAge: 80 }],
      sideVentures: [{ id: 'work', name: 'Own work', person: 'ann', perMonth: 5000 }],
    },
    savings: {
      accounts: [
        { id: 'cash', name: 'Cash', kind: 'cash', balance: 100_000 },
        { id: 'own', name: 'Own plan', kind: 'traditional', heldAs, balance: 0 },
      ],
      contributions: [{ id: 'own', account: 'own', perMonth: 4000 }],
      spendOrder: ['cash'],
      ...more,
    },
    assumptions: { inflation: 0, wageGrowth: 0, bills: 0 },
  })
  const { months, years } = project(plan)
  return { put: months[11]!.traditional, income: years[0]!.adjustedGrossIncome }
}

test('plans of the own business take what its profit allows, and lower income by it (26 USC 404(a)(8), 408(p), 402(g); Pub. 560)', () => {
  // Half of 60,000 × 0.9235 × 15.3 percent is 4,238.87: a fifth of the rest for a SEP, the year's deferral beside it for a solo 401(k).
  const half = (60_000 * 0.9235 * 0.153) / 2
  const sep = ownPlanIn2026('sep')
  expect(sep.put).toBeCloseTo((60_000 - half) / 5, 2)
  expect(sep.income).toBeCloseTo(60_000 - half - sep.put, 1)
  const solo = ownPlanIn2026('solo401k')
  expect(solo.put).toBeCloseTo((60_000 - half) / 5 + 24_500, 2)
  // 17,000, and 3 percent of net earnings.
  const simple = ownPlanIn2026('simple')
  expect(simple.put).toBeCloseTo(17_000 + 0.03 * 60_000 * 0.9235, 2)
  expect(simple.income).toBeCloseTo(60_000 - half - simple.put, 1)
})

test('a plan of the own business with contributions counts as covered for the IRA deduction (26 USC 219(g)(5))', () => {
  const ira = (heldAs: string) =>
    planSchema.parse({
      startMonth: '2026-01',
      household: {
        people: [{ id: 'ann', name: 'Ann', born: '1985-03-10', planToAge: 80 }],
        sideVentures: [{ id: 'work', name: 'Own work', person: 'ann', perMonth: 15_000 }],
      },
      savings: {
        accounts: [
          { id: 'cash', name: 'Cash', kind: 'cash', balance: 100_000 },
          { id: 'own', name: 'Own plan', kind: 'traditional', heldAs, balance: 0 },
          { id: 'ira', name: 'IRA', kind: 'traditional', balance: 0 },
        ],
        contributions: [
          { id: 'own', account: 'own', perMonth: 100 },
          { id: 'ira', account: 'ira', perMonth: 600 },
        ],
      },
      assumptions: { inflation: 0, wageGrowth: 0, bills: 0 },
    })
  expect(project(ira('sep')).months[11]!.traditional).toBeCloseTo(1200, 6)
  expect(project(ira('ira')).months[11]!.traditional).toBeCloseTo(7500, 6)
})
