// A month that has gone as planned, and what of it the year's return must know when the plan starts again after it. An invented person.
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { expectedStart } from '#today/projection/expected-start.ts'
import type { StartOfMonth } from '#today/projection/start-of-month.ts'

/** Lives on 2,000 a month out of an IRA, with nothing else, from May 2026 on, a month in which no tax is due. */
const onAnIra = (born: string) =>
  planSchema.parse({
    startMonth: '2026-05',
    years: 5,
    household: {
      people: [{ id: 'una', name: 'Una', born }],
      living: [{ id: 'living', name: 'Living', perMonth: 2000 }],
      floor: { kind: 'dollars', dollars: 0 },
    },
    savings: {
      accounts: [
        { id: 'jar', name: 'Cash', kind: 'cash', balance: 0 },
        { id: 'ira', name: 'IRA', kind: 'traditional', owner: 'una', balance: 120_000 },
      ],
      spendRetirementBeforeAge: true,
    },
    tax: { filing: 'single', soFar: { otherIncome: 6000, earlyWithdrawals: 6000 } },
    assumptions: { inflation: 0, bills: 0 },
  })

const soFarAfter = (born: string) => {
  const plan = onAnIra(born)
  const known = { apart: [null, null], farmNetBefore: null, people: {}, purchases: {}, headMoves: {} }
  return expectedStart(plan, project(plan), known as unknown as StartOfMonth).tax.soFar
}

test('what the month took out of an IRA is income of the year so far, with the tax added where it was early (26 USC 72(t))', () => {
  expect(soFarAfter('1972-02-03')).toMatchObject({ otherIncome: 8000, earlyWithdrawals: 8000 })
  expect(soFarAfter('1962-02-03')).toMatchObject({ otherIncome: 8000, earlyWithdrawals: 6000 })
})
