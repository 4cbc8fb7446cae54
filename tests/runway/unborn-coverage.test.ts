// Who counts in a household that expects a child, by the text of 42 CFR 435.603(b): the one who is pregnant "as herself plus the number of
// children she is expected to deliver", for others "at State option, as either 1 or 2 person(s) or as herself plus the number".
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { coverageLimits } from '#rules/coverage/coverage-limits.ts'
import { type UnbornCount, unbornAdded } from '#rules/coverage/unborn.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { lawFor } from '#rules/law.ts'
import { programPovertyLine } from '#rules/marketplace/premium-credit.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { coverYears } from '#today/cover/cover-years.ts'

const law = lawFor(2027, steadyIndexing(0))
const lineOf = (size: number) => programPovertyLine(law, 0, size)

/** Jo and Max in Pennsylvania with pay of so many percent of the line of two; children due in February 2028, which is after the return of 2027. */
const expecting = (percent: number, unbornForOthers?: UnbornCount, children = 1) =>
  planSchema.parse({
    startMonth: '2027-01',
    household: {
      place: { state: 'PA' },
      people: [
        { id: 'jo', name: 'Jo', born: '1995-05-20', planToAge: 50 },
        { id: 'max', name: 'Max', born: '1994-05-20', planToAge: 50 },
      ],
      dependents: Array.from({ length: children }, (_, k) => ({
        id: `child-${k}`,
        name: `Child ${k}`,
        born: '2028-02-10',
        mother: 'jo',
      })),
      pay: [{ id: 'pay', name: 'Pay', person: 'max', perMonth: (lineOf(2) * percent) / 1200 }],
    },
    health: {
      marketplace: { members: [{ person: 'jo' }, { person: 'max' }], planAt21: 300, benchmarkAt21: 300 },
      ...(unbornForOthers ? { unbornForOthers } : {}),
    },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 50_000 }] },
    assumptions: { inflation: 0, wageGrowth: 0, bills: 0 },
  })

const kindsIn2027 = (...facts: Parameters<typeof expecting>) => {
  const { coverage } = project(expecting(...facts))
  const of = (name: string) => coverage.find((one) => one.name === name)!.months.slice(0, 12)
  return { jo: of('Jo'), max: of('Max') }
}

test('each reading of the rule, by itself', () => {
  expect(unbornAdded(2, true, 'one')).toBe(2)
  expect(unbornAdded(2, false, 'one')).toBe(0)
  expect(unbornAdded(2, false, 'two')).toBe(1)
  expect(unbornAdded(2, false, 'expected')).toBe(2)
  expect(unbornAdded(0, false, 'two')).toBe(0)
})

test('she is measured as three from nine months before the birth on; he as two', () => {
  const { pregnant, adult } = coverageLimits('PA', '2027-01')
  expect([pregnant, adult]).toEqual([220, 138])
  // 230 percent of the line of two is above 220 for two, and 182 percent for three.
  expect((230 * lineOf(2)) / lineOf(3)).toBeLessThan(pregnant)
  const { jo, max } = kindsIn2027(230)
  expect(jo).toEqual([...Array(4).fill('marketplace'), ...Array(8).fill('Medicaid')])
  expect(max).toEqual(Array(12).fill('marketplace'))
  expect(kindsIn2027(290).jo).toEqual(Array(12).fill('marketplace'))
  // Twins make four of her: 290 percent of two is then 190.
  expect(kindsIn2027(290, 'one', 2).jo.at(-1)).toBe('Medicaid')
})

test('for the other it is the state’s choice: at 150 percent of two he is within 138 only where the child counts', () => {
  expect(kindsIn2027(150).max).toEqual(Array(12).fill('marketplace'))
  expect(kindsIn2027(150, 'two').max).toEqual([...Array(4).fill('marketplace'), ...Array(8).fill('Medicaid')])
  expect(kindsIn2027(150, 'expected').max).toEqual(kindsIn2027(150, 'two').max)
  // 190 percent of two is 150 of three and 124 of four.
  expect(kindsIn2027(190, 'two', 2).max.at(-1)).toBe('marketplace')
  expect(kindsIn2027(190, 'expected', 2).max.at(-1)).toBe('Medicaid')
})

test('the map of income has her line where three people have it', () => {
  const plan = expecting(230)
  const [year] = coverYears(plan, publishedRules(plan), project(plan))
  const lines = year!.steps.map(({ toPercent }) => toPercent)
  expect(lines.some((one) => Math.abs(one - (220 * lineOf(3)) / lineOf(2)) < 1e-9)).toBe(true)
})
