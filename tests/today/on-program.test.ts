// Months left that count on a program of the state for adults say so: from when, how long, and whom.
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import type { CoverageKind } from '#rules/coverage/coverage-kinds.ts'
import { onProgram } from '#today/now/on-program.ts'

const months = ['2026-11', '2026-12', '2027-01', '2027-02'].map((at) => ({ month: at }))
const member = (name: string, covered: CoverageKind[], isChild = false) => ({
  id: name.toLowerCase(),
  name,
  isChild,
  months: covered,
})
const told = (coverage: ReturnType<typeof member>[], from = month(2026, 11)) =>
  onProgram({ coverage, months } as unknown as Parameters<typeof onProgram>[0], from)

test('adults by name, from the first month of either, in the months of any', () => {
  const both = told([
    member('Ilse', ['marketplace', 'Medicaid', 'marketplace', 'marketplace']),
    member('Wendell', ['marketplace', 'Medicaid', 'Medicaid', 'marketplace']),
  ])
  expect(both).toMatchObject({ fromMonth: month(2026, 12), months: 2 })
  expect(both!.says).toBe(
    'By expected income Medicaid covers Ilse and Wendell from December 2026, in 2 months of the plan. Where the agency decides otherwise, premiums come off savings and months left are fewer.',
  )
})

test('children, months before today and the marketplace are nothing to count on', () => {
  expect(told([member('Kit', ['Medicaid', 'Medicaid', 'Medicaid', 'Medicaid'], true)])).toBeNull()
  expect(
    told([member('Ilse', ['Medicaid', 'marketplace', 'Medicare', 'Medicare'])], month(2026, 12)),
  ).toBeNull()
})
