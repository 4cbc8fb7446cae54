// `dooryard estimate --kind`: each kind's own example works, and faults say which key and what to enter.
import { describe, expect, test } from 'vitest'
import { estimateKinds } from '#src/cli/estimate/estimate-kinds.ts'
import { readJson } from '#src/cli/read-json.ts'

const exampleOf = (help: string): unknown => JSON.parse(/Example: (\{.*\})/.exec(help)![1]!)

const run = async (name: string, change: (input: Record<string, unknown>) => object = (input) => input) => {
  const kind = await estimateKinds[name]!()
  const input = change(exampleOf(kind.help) as Record<string, unknown>)
  return kind.run(readJson(kind.schema, JSON.stringify(input)) as never) as Record<string, unknown>
}

describe.for(['social-security', 'medicare', 'rmd', 'even-payments', 'depreciation', 'premium'])(
  '%s',
  (name) => {
    test('its example works and every figure of the trace names a rule and a source', async () => {
      const result = await run(name)
      const trace = result.trace as { rule: string; source: string; amount: number }[]
      expect(trace.length).toBeGreaterThan(0)
      for (const line of trace) {
        expect(line.rule.length).toBeGreaterThan(3)
        expect(line.source).toMatch(/\d/)
        expect(Number.isFinite(line.amount)).toBe(true)
      }
    })
    test('an unknown key is refused by name', async () => {
      await expect(run(name, (input) => ({ ...input, haircut: 1 }))).rejects.toThrow(
        'haircut: there is no such key here',
      )
    })
  },
)

test('social security: claiming later pays more, a spouse and work are told apart', async () => {
  const at = async (years: number) =>
    (await run('social-security', (input) => ({ ...input, claimAge: { years } }))).monthlyBenefit as number
  expect(await at(70)).toBeGreaterThan(await at(67))
  const full = await run('social-security', (input) => ({
    ...input,
    claimAge: { years: 63 },
    spouse: { born: '1966-01-10', ownPrimaryAmount: 100, claimAge: { years: 67 } },
    workWhileClaiming: 60_000,
  }))
  expect(full.spousePart as number).toBeGreaterThan(0)
  expect(full.survivorBenefit as number).toBeGreaterThan(full.monthlyBenefit as number)
  expect(full.withheldInYear as number).toBeGreaterThan(0)
  // 2027 rests on the adjustment of 2026, which is published; 2031 does not.
  expect(full.basis).toBe('enacted')
  expect((await run('social-security')).basis).toBe('projected')
})

test('social security: what a death pays a spouse of any age and the children, a third of the maximum each', async () => {
  const told = await run('social-security', (input) => ({
    ...input,
    spouse: { born: '1986-01-10', claimAge: { years: 67 } },
    children: ['2018-04-02', '2020-04-02', '2001-01-01'],
    diesIn: 2024,
  }))
  const { familyMaximum, ...after } = told.afterDeath as Record<string, number>
  const third = Math.floor(familyMaximum! / 3)
  expect(after).toMatchObject({ children: 2, eachChild: third, spouse: third })
  expect(third).toBeGreaterThan(0)
  expect(after.fromSixty).toBe(Math.floor(7.15 * after.primaryInsuranceAmount!) / 10)
  expect(after.atFullAge).toBe(after.primaryInsuranceAmount)
})

// Notice 2022-6 sec. 3: 36.2 years at 50 by the Single Life Table; 400,000 ÷ 36.2, and amortized at 5 %.
test('even payments by each method, the rate held to the law’s', async () => {
  const told = await run('even-payments')
  expect(told).toMatchObject({ age: 50, lifeExpectancy: 36.2, byLifeExpectancy: 11_049.72, until: '2035-08' })
  expect(told.byAmortization).toBeCloseTo(24_124.89, 2)
  const at = (ratePercent: number, midTermRatePercent: number) =>
    run('even-payments', (input) => ({ ...input, ratePercent, midTermRatePercent }))
  await expect(at(5.1, 4)).rejects.toThrow('ratePercent: Enter at most 5')
  expect((await at(5.4, 4.5)).byAmortization as number).toBeGreaterThan(24_125)
  await expect(run('even-payments', (input) => ({ ...input, from: '2035-08' }))).rejects.toThrow('from:')
  // The agency's example of a factor, by the table of Rev. Rul. 2002-62 at 2.98 percent, age 50: 400,000 ÷ 21.345 = 18,740 (IRS
  // page on substantially equal periodic payments, read as quoted).
  expect(told.byAnnuity).toBeUndefined()
  const given = await run('even-payments', (input) => ({ ...input, balance: 400_000, annuityFactor: 21.345 }))
  expect(Math.round(given.byAnnuity as number)).toBe(18_740)
})

test('a year before the data is an error that names rule and year', async () => {
  await expect(run('medicare', (input) => ({ ...input, premiumYear: 2020 }))).rejects.toThrow(
    /Part B standard premium.*2020/,
  )
})

test('faults come with their key', async () => {
  await expect(
    run('depreciation', (input) => ({
      ...input,
      assets: [
        {
          name: 'Barn',
          assetClass: 'farm-building',
          cost: 100,
          placedInService: '2026-01-01',
          section179: 50,
        },
      ],
    })),
  ).rejects.toThrow('assets.0.section179: Section 179 does not cover buildings. Enter 0')
  await expect(run('rmd', (input) => ({ ...input, balance: 'much' }))).rejects.toThrow(
    'balance: Enter dollars as a number',
  )
})

test('social security: a lean farm year counts one quarter by the regular method and four by the optional one', async () => {
  const lean = await run('social-security', (input) => ({
    ...input,
    farmYear: { year: 2026, netProfit: 2500, grossIncome: 14_000 },
  }))
  const farmYear = lean.farmYear as Record<
    'regular' | 'farmOptional',
    { quarters: number; coveredEarnings: number; selfEmploymentTax: number; primaryAmountChange: number }
  >
  expect(farmYear.regular).toMatchObject({ quarters: 1, coveredEarnings: 2308.75 })
  expect(farmYear.farmOptional).toMatchObject({ quarters: 4, coveredEarnings: 7560 })
  expect(farmYear.farmOptional.selfEmploymentTax).toBeGreaterThan(farmYear.regular.selfEmploymentTax)
  expect(farmYear.farmOptional.primaryAmountChange).toBeGreaterThan(farmYear.regular.primaryAmountChange)
  const good = await run('social-security', (input) => ({
    ...input,
    farmYear: { year: 2026, netProfit: 30_000, grossIncome: 70_000 },
  }))
  expect((good.farmYear as { farmOptional: unknown }).farmOptional).toBeNull()
})
