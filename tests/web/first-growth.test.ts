// The growth that a first plan assumes: published projections, each marked by how it was obtained, and told on the page of sources.
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { lawFigures } from '#rules/sources.ts'
import { firstGrowth } from '#web/pages/start/first-growth.ts'
import { testApp } from './test-app.ts'

// Ours between KFF's 5.6 % and the CMS actuary's 4.8 %; the Medicare Trustees' from memory; the CMS actuary's 3.6 % as printed.
const marks = [
  ['marketplace premiums', 0.05, 2035, 'computed', 'computed from figures that were read'],
  ['Medicare premiums', 0.055, 2035, 'memory', 'from memory, not seen in the source'],
  ['the cost of care', 0.036, 2032, 'read', 'read in the source'],
] as const

const figureOf = (what: string) =>
  lawFigures().find(
    ({ rule }) => rule.startsWith(`growth of ${what}`) && rule.endsWith('first plan assumes'),
  )!

test.each(marks)('%s: %d up to %d is %s', (what, rate, until, obtained) => {
  const { values, source } = figureOf(what)
  expect(values).toEqual([
    { year: '2026', value: `rate: ${rate}; until: ${until.toLocaleString('en-US')}`, obtained },
  ])
  expect(source).not.toBe('')
})

test('a first plan begins with exactly these, and none of its growth of health costs is without a mark', () => {
  const growth = firstGrowth()
  const [premiums, medicare, care] = marks
  expect(growth).toEqual({
    premiumGrowth: premiums[1],
    premiumGrowthUntil: premiums[2],
    medicareGrowth: medicare[1],
    medicareGrowthUntil: medicare[2],
    careGrowth: care[1],
    careGrowthUntil: care[2],
  })
  const { assumptions } = planSchema.parse({
    startMonth: '2027-01',
    household: { people: [{ id: 'a', name: 'A', born: '1980-03-10' }] },
    assumptions: growth,
  })
  const ofHealth = Object.keys(assumptions).filter((name) => /^(premium|medicare|care)Growth/.test(name))
  expect(ofHealth.sort()).toEqual(Object.keys(growth).sort())
})

test('the page of sources says of each how it was obtained', async () => {
  const app = testApp()
  app.openSides()
  const page = await (await app.get('/settings/sources')).text()
  app.close()
  for (const [what, , , , words] of marks) {
    const from = page.indexOf(figureOf(what).rule)
    expect(from, what).toBeGreaterThan(0)
    expect(page.slice(from, page.indexOf('</details>', from)), what).toContain(words)
  }
})

test('a plan written by hand that says nothing of care begins with the same rate as one of the forms', () => {
  expect(planSchema.parse({ startMonth: '2027-01' }).assumptions.careGrowth).toBe(firstGrowth().careGrowth)
})
