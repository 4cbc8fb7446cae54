// Dates the law sets: which fall in a span, for whom, and that each keeps its id.
import { describe, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { type DueGround, dueDates } from '#rules/due-dates.ts'

const ground = (more: Partial<DueGround> = {}): DueGround => ({
  people: [],
  state: null,
  isFarmerYear: () => true,
  paidForWork: () => false,
  payroll: () => ({ farm: null, othersWages: false, partnership: false }),
  paidRent: () => false,
  salesTax: null,
  saves: false,
  usesMarketplace: false,
  ...more,
})

const days = (found: ReturnType<typeof dueDates>) => found.map(({ id, day }) => `${day} ${id}`)

describe('tax', () => {
  test('a farmer has one installment and an early filing day; others have four quarters', () => {
    expect(days(dueDates(ground(), day('2027-01-01'), day('2027-12-31')))).toEqual([
      '2027-01-15 estimated-tax-2026-1',
      '2027-03-01 file-early-2026',
      '2027-04-15 more-time-2026',
      '2027-04-15 return-2026',
      '2027-10-15 return-extended-2026',
    ])
    const others = dueDates(ground({ isFarmerYear: () => false }), day('2026-01-01'), day('2026-12-31'))
    expect(others.filter(({ kind }) => kind === 'estimated-tax').map(({ day }) => day)).toEqual([
      '2026-01-15',
      '2026-04-15',
      '2026-06-15',
      '2026-09-15',
    ])
  })
})

describe('forms for work paid', () => {
  // 26 USC 6071(c): January 31; of 2026 it is a Saturday, of 2027 a Sunday (26 USC 7503).
  test('are due by January 31, or the next working day, only where work was paid for', () => {
    const of = (paid: boolean) =>
      days(dueDates(ground({ paidForWork: () => paid }), day('2026-01-20'), day('2027-02-10'))).filter(
        (text) => text.includes('work-forms'),
      )
    expect(of(true)).toEqual(['2026-02-02 work-forms-2025', '2027-02-01 work-forms-2026'])
    expect(of(false)).toEqual([])
  })
})

describe('rent, sales tax and savings', () => {
  const of = (more: Partial<DueGround>, part: string) =>
    days(dueDates(ground(more), day('2026-01-01'), day('2026-12-31'))).filter((text) => text.includes(part))

  test('a landlord’s form comes by January 31, only where rent was paid', () => {
    expect(of({ paidRent: (year) => year === 2025 }, 'rent-forms')).toEqual(['2026-02-02 rent-forms-2025'])
    expect(of({}, 'rent-forms')).toEqual([])
  })

  test('sales tax by the state’s letter: each quarter by the 20th of the month after, or the next working day', () => {
    expect(
      of({ salesTax: { every: 'quarter', dayOfMonth: 20 } }, 'sales-tax').map((text) => text.slice(0, 10)),
    ).toEqual(['2026-01-20', '2026-04-20', '2026-07-20', '2026-10-20'])
    expect(of({ salesTax: { every: 'month', dayOfMonth: 31 } }, 'sales-tax')).toHaveLength(12)
    expect(
      of({ salesTax: { every: 'year', dayOfMonth: 31 } }, 'sales-tax').map((text) => text.slice(0, 10)),
    ).toEqual(['2026-02-02'])
  })

  // 26 USC 219(f)(3), 223(d)(4)(B): until the return is due, more time to file left out.
  test('an IRA or HSA may be paid into until the return is due', () => {
    expect(of({ saves: true }, 'contributions')).toEqual(['2026-04-15 contributions-2025'])
    expect(of({}, 'contributions')).toEqual([])
  })
})

describe('state income tax', () => {
  const ofState = (state: DueGround['state'], farmer = false) =>
    dueDates(ground({ state, isFarmerYear: () => farmer }), day('2026-01-16'), day('2027-01-31')).filter(
      ({ id }) => id.startsWith('state-'),
    )

  // Va. Code 58.1-341 and 58.1-491: May 1 for the return and for the first of four payments.
  test('goes by the state’s own dates where the data have them', () => {
    expect(days(ofState('VA'))).toEqual([
      '2026-05-01 state-estimated-tax-1-VA-2026',
      '2026-05-01 state-return-VA-2025',
      '2026-06-15 state-estimated-tax-2-VA-2026',
      '2026-09-15 state-estimated-tax-3-VA-2026',
      '2027-01-15 state-estimated-tax-4-VA-2026',
    ])
    expect(ofState('LA').find(({ kind }) => kind === 'return')?.day).toBe('2026-05-15')
    // California asks for three tenths, four tenths, nothing and three tenths: no payment in September.
    expect(ofState('CA').filter(({ kind }) => kind === 'state-estimated-tax')).toHaveLength(3)
  })

  test('else by the federal ones, and says so; a farmer pays once; no state tax, no date', () => {
    const pennsylvania = ofState('PA')
    expect(pennsylvania).toHaveLength(5)
    expect(pennsylvania[0]!.says).toContain('federal dates')
    expect(days(ofState('PA', true))).toEqual([
      '2026-04-15 state-return-PA-2025',
      '2027-01-15 state-estimated-tax-1-PA-2026',
    ])
    expect(ofState('TX')).toEqual([])
    expect(ofState(null)).toEqual([])
  })
})

describe('health cover (windows recalled, 45 CFR 155.410 and 42 CFR 407.14)', () => {
  // City of Columbus v. Kennedy, D. Md., order of June 12, 2026, vacated the rule that would have ended it on December 15.
  test('open enrollment for 2026 ran to January 15, and so does that for 2027', () => {
    const found = days(
      dueDates(ground({ usesMarketplace: true }), day('2025-11-01'), day('2027-01-31')),
    ).filter((text) => text.includes('open-enrollment'))
    expect(found).toEqual([
      '2025-11-01 open-enrollment-2026-opens',
      '2025-12-15 open-enrollment-2026-january',
      '2026-01-15 open-enrollment-2026-closes',
      '2026-11-01 open-enrollment-2027-opens',
      '2026-12-15 open-enrollment-2027-january',
      '2027-01-15 open-enrollment-2027-closes',
    ])
  })

  const person = (born: string) => ({ id: 'a', name: 'Mara', born: day(born), hasTraditionalAccount: true })

  test('Medicare: three months before the month of 65 to three after', () => {
    const found = dueDates(ground({ people: [person('1961-08-20')] }), day('2026-01-01'), day('2026-12-31'))
    expect(days(found).filter((text) => text.includes('medicare'))).toEqual([
      '2026-05-01 medicare-a-opens',
      '2026-07-31 medicare-a-before',
      '2026-11-30 medicare-a-closes',
    ])
  })

  test('someone born on the 1st is 65 a month early', () => {
    const found = dueDates(ground({ people: [person('1961-08-01')] }), day('2026-01-01'), day('2026-12-31'))
    expect(days(found)).toContain('2026-04-01 medicare-a-opens')
  })

  test('required distributions: the first by April 1 of the year after, later ones by December 31', () => {
    const found = dueDates(ground({ people: [person('1953-03-03')] }), day('2026-01-01'), day('2027-12-31'))
    expect(days(found).filter((text) => text.includes('required'))).toEqual([
      '2027-04-01 required-distribution-a-2026',
      '2027-12-31 required-distribution-a-2027',
    ])
    const none = dueDates(
      ground({ people: [{ ...person('1953-03-03'), hasTraditionalAccount: false }] }),
      day('2026-01-01'),
      day('2027-12-31'),
    )
    expect(days(none).some((text) => text.includes('required'))).toBe(false)
  })
})

test('ids are unique, days in order and inside the span', () => {
  const found = dueDates(
    ground({
      usesMarketplace: true,
      people: [{ id: 'a', name: 'Mara', born: day('1958-02-01'), hasTraditionalAccount: true }],
    }),
    day('2024-06-01'),
    day('2040-06-01'),
  )
  expect(new Set(found.map(({ id }) => id)).size).toBe(found.length)
  expect(found.every(({ day: on }, i) => i === 0 || on >= found[i - 1]!.day)).toBe(true)
  expect(found[0]!.day >= '2024-06-01' && found.at(-1)!.day <= '2040-06-01').toBe(true)
})

// 26 CFR 31.6302-1(c)(1): by the 15th of the month after; (f)(4): under 2,500 a year with the form; (b)(3), (g)(1): over 50,000 in the
// second year before, within days of the pay.
test('deposits of payroll tax by the 15th of the next month, once a year comes to 2,500; days of rest move them', () => {
  const byMonth = [0, 0, 0, 300, 900, 1400, 0, 0, 0, 0, 0, 200]
  const of = (farm: { byMonth: number[]; yearBefore: number; twoYearsBefore: number }) =>
    dueDates(
      ground({
        payroll: (year) => ({ farm: year === 2026 ? farm : null, othersWages: false, partnership: false }),
      }),
      day('2026-01-01'),
      day('2027-02-10'),
    ).filter(({ kind }) => kind === 'payroll')
  // November 15, 2026 would be a Sunday; January 15, 2027 is a Friday.
  expect(of({ byMonth, yearBefore: 0, twoYearsBefore: 0 }).map((due) => due.day)).toEqual([
    '2026-05-15',
    '2026-06-15',
    '2026-07-15',
    '2027-01-15',
  ])
  const small = byMonth.map((tax) => tax / 2)
  expect(of({ byMonth: small, yearBefore: 2499, twoYearsBefore: 0 })).toEqual([])
  expect(of({ byMonth: small, yearBefore: 2500, twoYearsBefore: 0 })).toHaveLength(4)
  expect(of({ byMonth, yearBefore: 0, twoYearsBefore: 50_001 })[0]!.says).toContain('within days of each pay')
})

test('Form 941 by quarter where a venture pays wages, Form 1065 in March where the farm is a partnership', () => {
  const due = dueDates(
    ground({ payroll: (year) => ({ farm: null, othersWages: year === 2025, partnership: year === 2025 }) }),
    day('2025-01-01'),
    day('2026-12-31'),
  ).filter(({ id }) => id.startsWith('form-941') || id.startsWith('partnership'))
  // January 31, 2026 is a Saturday, March 15, 2026 a Sunday.
  expect(due.map((one) => [one.id, one.day])).toEqual([
    ['form-941-2025-1', '2025-04-30'],
    ['form-941-2025-2', '2025-07-31'],
    ['form-941-2025-3', '2025-10-31'],
    ['form-941-2025-4', '2026-02-02'],
    ['partnership-return-2025', '2026-03-16'],
  ])
})
