// Who counts as a child in a year's return: ages on December 31 (26 USC 24(c), 32(c)(3), 21(b)(1), 152(c)(3)).
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { childrenOfYear } from '#runway/children-of-year.ts'

const plan = planSchema.parse({
  startMonth: '2027-01',
  household: {
    people: [{ id: 'ann', name: 'Ann', born: '1985-03-10' }],
    dependents: [
      { id: 'cy', name: 'Cy', born: '2014-12-31' },
      { id: 'dot', name: 'Dot', born: '2028-06-01', untilAge: 23 },
    ],
  },
})

const counted = (year: number) => {
  const { childrenUnder17, otherDependents, earnedCreditChildren, careChildren } = childrenOfYear(plan, year)
  return [childrenUnder17, otherDependents, earnedCreditChildren, careChildren]
}

test('a child not yet born counts for nothing, one born in the year for all of it', () => {
  expect(counted(2027)).toEqual([1, 0, 1, 0])
  expect(counted(2028)).toEqual([2, 0, 2, 1])
})

test('care counts below 13, the child credit below 17, the earned income credit below 19', () => {
  expect(counted(2026)).toEqual([1, 0, 1, 1])
  expect(counted(2030)).toEqual([2, 0, 2, 1])
  expect(counted(2031)).toEqual([1, 1, 2, 1])
  expect(counted(2032)).toEqual([1, 1, 2, 1])
})

test('a child does not count in the year in which it leaves: at 19 unless the plan says another age', () => {
  expect(counted(2033)).toEqual([1, 0, 1, 1])
  expect(counted(2047)).toEqual([0, 1, 0, 0])
  expect(counted(2050)).toEqual([0, 1, 0, 0])
  expect(counted(2051)).toEqual([0, 0, 0, 0])
})

// Eli, 19 in May 2026: at the college, supported until 24, the credit's child as long (26 USC 152(c)(3)(A)(ii)); without the word for
// a student a dependent only.
test('a full-time student counts for the earned income credit until 24', () => {
  const with19 = (student: boolean) => {
    const of = planSchema.parse({
      startMonth: '2026-07',
      household: {
        people: [{ id: 'fay', name: 'Fay', born: '1969-03-10' }],
        dependents: [{ id: 'eli', name: 'Eli', born: '2007-05-22', untilAge: 24, student }],
      },
    })
    return [2025, 2026, 2030, 2031].map((year) => {
      const { earnedCreditChildren, otherDependents } = childrenOfYear(of, year)
      return [earnedCreditChildren, otherDependents]
    })
  }
  expect(with19(true)).toEqual([
    [1, 1],
    [1, 1],
    [1, 1],
    [0, 0],
  ])
  expect(with19(false)).toEqual([
    [1, 1],
    [0, 1],
    [0, 1],
    [0, 0],
  ])
})

test('their ages are told with them', () => {
  expect(childrenOfYear(plan, 2028).dependentAges).toEqual([14, 0])
})
