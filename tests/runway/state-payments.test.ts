// What a course pays its state, and when: apart from the federal tax, by the state's own months.
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { traceMonth } from '#runway/trace.ts'

/** One who earns 60,000 a year of fees, with nothing withheld: no farmer, so that payments are due in the year itself. */
const living = (state: string | undefined, more: object = {}) => {
  const plan = planSchema.parse({
    startMonth: '2026-01',
    household: {
      place: state === undefined ? {} : { state },
      people: [{ id: 'ann', name: 'Ann', born: '1984-03-10', planToAge: 60 }],
      sideVentures: [{ id: 'fees', name: 'Fees', person: 'ann', perMonth: 5000 }],
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 50_000 }] },
    assumptions: { inflation: 0, wageGrowth: 0, bills: 0 },
    ...more,
  })
  return { plan, ...project(plan) }
}

const paidIn = (course: ReturnType<typeof living>, year: number) =>
  course.months
    .filter(({ month, stateTaxes }) => month.startsWith(String(year)) && Math.abs(stateTaxes) > 0.005)
    .map(({ month, stateTaxes }) => [month.slice(5), Math.round(stateTaxes * 100) / 100])

test('payments ahead and the return go by the state’s months: Virginia in May, Iowa to the end of January', () => {
  const virginia = living('VA')
  expect(paidIn(virginia, 2027).map(([month]) => month)).toEqual(['01', '05', '06', '09'])
  const iowa = living('IA')
  expect(paidIn(iowa, 2027).map(([month]) => month)).toEqual(['01', '04', '06', '09'])
  // Three tenths, four tenths, nothing, three tenths (Cal. Rev. and Tax. Code 19136.1).
  const [, , june] = paidIn(living('CA'), 2027)
  expect(june![0]).toBe('06')
  const ahead = living('CA').months.filter(({ month }) => month >= '2026-02' && month < '2027-02')
  const ofMonth = (text: string) => ahead.find(({ month }) => month === text)!.stateTaxes
  expect(ofMonth('2026-06') / ofMonth('2026-04')).toBeCloseTo(4 / 3, 6)
  expect(ofMonth('2026-09')).toBe(0)
  expect(ofMonth('2027-01')).toBeCloseTo(ofMonth('2026-04'), 6)
})

test('what is paid to the state over the years is its tax, to the cent', () => {
  for (const state of ['VA', 'PA', 'CA', 'LA']) {
    const course = living(state)
    const paid = course.months
      .filter(({ month }) => month < '2030-06')
      .reduce((sum, one) => sum + one.stateTaxes, 0)
    const [first, second, third, fourth, fifth] = course.years
    const soFar = course.months
      .filter(({ month }) => month >= '2030-02' && month < '2030-06')
      .reduce((sum, one) => sum + one.stateTaxes, 0)
    const settles = [first, second, third, fourth].reduce((sum, one) => sum + one!.stateTax, 0)
    expect(fifth!.stateTax, state).toBeGreaterThan(0)
    // Of what falls in spring 2030, the return of 2029 settles what was not paid ahead; the rest is ahead for 2030.
    const aheadOf2030 = course.months.find(({ month }) => month === '2030-06')!.stateTaxes
    const springPayment = state === 'CA' ? (aheadOf2030 * 3) / 4 : aheadOf2030
    expect(paid - springPayment, state).toBeCloseTo(settles, 1)
    expect(soFar, state).toBeGreaterThan(0)
  }
})

test('the federal tax and its dates are the same with and without a state', () => {
  const [without, within] = [living(undefined), living('PA')]
  for (const [m, month] of within.months.entries())
    expect(month.taxes - month.stateTaxes).toBeCloseTo(without.months[m]!.taxes, 6)
})

test('a month’s parts tell both apart', () => {
  const course = living('VA')
  const lines = traceMonth(course.plan, course, '2027-06')!.flatMap((group) => group.lines)
  expect(lines.map(({ name }) => name)).toEqual(expect.arrayContaining(['Federal tax', 'State tax']))
})

test('what is withheld beyond the federal tax counts for the state’s', () => {
  const pay = (withheldShare: number) => ({
    household: {
      place: { state: 'PA' },
      people: [{ id: 'ann', name: 'Ann', born: '1984-03-10', planToAge: 60 }],
      pay: [{ id: 'pay', name: 'Pay', person: 'ann', perMonth: 5000, withheldShare }],
    },
  })
  expect(paidIn(living('PA', pay(0.3)), 2027)).toEqual([])
  expect(paidIn(living('PA', pay(0)), 2027).length).toBeGreaterThan(0)
})

test('the state’s part of what is withheld, as pay slips tell it, is its own: too little is paid to it, too much comes back', () => {
  const pay = (withheldForState: number | undefined, state: string | null = 'PA') => ({
    household: {
      place: state === null ? {} : { state },
      people: [{ id: 'ann', name: 'Ann', born: '1984-03-10', planToAge: 60 }],
      pay: [{ id: 'pay', name: 'Pay', person: 'ann', perMonth: 5000, withheldShare: 0.12 }],
    },
    tax: { withheldForState },
  })
  const course = (part?: number) => living('PA', pay(part))
  const sumOf = (of: ReturnType<typeof living>, what: 'taxes' | 'stateTaxes') =>
    of.months
      .filter(({ month }) => month > '2027-01' && month < '2028-01')
      .reduce((sum, one) => sum + one[what], 0)
  const year = course().years.find((one) => one.year === 2026)!
  // 12 percent of 60,000 is 7,200. Pennsylvania takes 3.07 percent of pay: 1,842 (72 P.S. 7302). A fourth of 7,200 is 1,800.
  expect(year.stateTax).toBeCloseTo(1842, 2)
  expect(sumOf(course(0.25), 'stateTaxes')).toBeCloseTo(42, 2)
  // Half of it is 3,600: what the state did not ask comes back, and the federal tax lacks as much.
  expect(sumOf(course(0.5), 'stateTaxes')).toBeCloseTo(1842 - 3600, 2)
  // None of it: the state's is paid whole, ahead in later years.
  expect(sumOf(course(0), 'taxes') - sumOf(course(0), 'stateTaxes')).toBeLessThan(
    sumOf(course(0.25), 'taxes') - sumOf(course(0.25), 'stateTaxes'),
  )
  // Over all the years it is the same money, sooner or later.
  const whole = (part?: number) => course(part).years.reduce((sum, one) => sum + one.tax, 0)
  expect(whole(0.25)).toBeCloseTo(whole(), 2)
  // Where no state tax counts, nothing of it is the state's.
  expect(living(undefined, pay(0.5, null)).months).toEqual(living(undefined, pay(undefined, null)).months)
})

test('a return is settled in its own state’s month: Virginia May 1 and Louisiana May 15, Delaware and Iowa April 30, Hawaii April 20 (as the data has them)', () => {
  const pay = {
    sideVentures: [],
    pay: [{ id: 'pay', name: 'Pay', person: 'ann', perMonth: 1500 }],
    people: [{ id: 'ann', name: 'Ann', born: '1984-03-10', planToAge: 60 }],
  }
  for (const [state, month] of [
    ['VA', '05'],
    ['LA', '05'],
    ['DE', '04'],
    ['IA', '04'],
    ['HI', '04'],
  ] as const) {
    const course = living(state, { household: { place: { state }, ...pay } })
    // Too little for anything to be paid ahead.
    expect(paidIn(course, 2026), state).toEqual([])
    expect(paidIn(course, 2027), state).toEqual([[month, Math.round(course.years[0]!.stateTax * 100) / 100]])
  }
})
