// When a benefit begins where a claim comes before the 40 quarters of coverage that it needs (42 USC 414(a); SSA, "How You Earn
// Credits": 1,890 dollars of covered earnings a quarter in 2026, from memory). Two households of our own invention.
import { expect, test } from 'vitest'
import { type Plan, planSchema } from '#plan/plan.ts'
import { insuredYears } from '#runway/benefits/insured-years.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { testApp } from '../web/test-app.ts'

/** Born in March 1971, so that 67 is reached in March 2038; the farm brings so much a year, and no record of earlier years is given. */
const alone = (net: number, statement: { statementBenefit?: number } = {}): Plan =>
  planSchema.parse({
    startMonth: '2026-01',
    household: {
      people: [{ id: 'jo', name: 'Jo', born: '1971-03-10', planToAge: 95, ...statement }],
      living: [{ id: 'l', name: 'L', perMonth: 1500 }],
    },
    savings: { accounts: [{ id: 's', name: 'S', kind: 'cash', balance: 900_000 }] },
    farm: { cash: 9000, enterprises: [{ id: 'e', name: 'E', salesPerUnit: net, costsPerUnit: 0 }] },
    assumptions: { inflation: 0, wageGrowth: 0 },
  })
const begins = (plan: Plan) => project(plan).months.find((one) => one.socialSecurity > 0)?.month
const insured = (plan: Plan) => insuredYears(plan, publishedRules(plan))[0]

test('four quarters a year are 40 after ten years, before the claim: it begins with the claim', () => {
  const plan = alone(30_000)
  // 2026 to 2037 are twelve years of four.
  expect(insured(plan)).toEqual({ quarters: 48, needed: 40, from: 2036 })
  expect(begins(plan)).toBe('2038-03')
})

test('two quarters a year are 40 after twenty: the claim of 2038 brings something only from 2046 on', () => {
  // 92.35 % of 5,000 is 4,617.50: two quarters of 1,890.
  const plan = alone(5000)
  expect(insured(plan)).toEqual({ quarters: 24, needed: 40, from: 2046 })
  expect(begins(plan)).toBe('2046-01')
})

test('a farm that brings nothing never earns them, and a statement needs none', () => {
  expect(insured(alone(0))).toEqual({ quarters: 0, needed: 40, from: null })
  expect(begins(alone(0))).toBeUndefined()
  const stated = alone(0, { statementBenefit: 900 })
  expect([insured(stated), begins(stated)]).toEqual([null, '2038-03'])
})

test('Slower years says why benefits begin later than the claim, or never', async () => {
  const said = async (plan: Plan) => {
    const app = testApp({ today: '2026-01-05' })
    app.savePlan(plan)
    const page = await (await app.get('/slower-years')).text()
    app.close()
    return page
  }
  expect(await said(alone(5000))).toContain(
    'Social Security begins in 2046. Jo claims in March 2038 with 24 of the 40 quarters of coverage that a retirement benefit needs, and has them all only from 2046 on.',
  )
  expect(await said(alone(0))).toContain(
    'No Social Security in this plan. Jo claims in March 2038 with 0 of the 40 quarters of coverage that a retirement benefit needs, and never has them all.',
  )
  expect(await said(alone(30_000))).not.toContain('quarters of coverage')
})
