// The estimate command: the agreed keys, a trace for each, and faults told by key.
import { expect, test } from 'vitest'
import { estimateCommand } from '#src/cli/estimate/estimate.ts'
import { CommandError, type CommandIo } from '../../src/cli/command.ts'

const example = {
  taxYear: 2026,
  filingStatus: 'married_joint',
  region: 'contiguous',
  people: [
    { age: 45, blind: false },
    { age: 43, blind: false },
  ],
  dependents: [{ age: 8 }],
  income: {
    wages: [0, 12_000],
    farmProfit: [30_000, 0],
    otherSelfEmployment: [0, 0],
    interest: 0,
    ordinaryDividends: 0,
    qualifiedDividends: 0,
    longTermGains: 0,
    shortTermGains: 0,
    iraDistributions: 0,
    socialSecurity: 0,
    taxExemptInterest: 0,
    otherIncome: 0,
  },
  deductions: { itemized: 0, traditionalIra: 0, sep: 0, hsa: 0, earlyWithdrawalAmount: 0 },
  payments: { withheld: 0, estimated: 0 },
  cover: { months: 12, premiumMonthly: 1500, benchmarkMonthly: 1400, advanceMonthly: 0 },
  options: { taxTable: false, farmOptionalMethod: 'no' },
}

const outputKeys = [
  'adjustedGrossIncome',
  'householdIncome',
  'povertyPercent',
  'deduction',
  'qbiDeduction',
  'taxableIncome',
  'incomeTax',
  'selfEmploymentTax',
  'additionalMedicareTax',
  'netInvestmentIncomeTax',
  'selfEmployedHealthDeduction',
  'premiumTaxCredit',
  'excessAdvance',
  'childTaxCredit',
  'additionalChildTaxCredit',
  'earnedIncomeCredit',
  'saversCredit',
  'taxableSocialSecurity',
  'earlyWithdrawalTax',
  'totalTax',
  'totalPayments',
  'balanceDue',
  'carryforwards',
  'method',
  'trace',
]

const run = async (input: unknown, args: string[] = ['-']) => {
  const lines: string[] = []
  const io: CommandIo = {
    out: (text) => lines.push(text),
    err: () => {},
    readInput: async () => (typeof input === 'string' ? input : JSON.stringify(input)),
    env: {},
    now: () => new Date('2026-11-25T12:00:00Z'),
  }
  expect(await estimateCommand.run(args, io)).toBe(0)
  return JSON.parse(lines.join('\n'))
}

const fault = async (input: unknown, args?: string[], exitCode = 2): Promise<string> => {
  try {
    await run(input, args)
  } catch (error) {
    expect(error).toBeInstanceOf(CommandError)
    expect((error as CommandError).exitCode).toBe(exitCode)
    return (error as CommandError).message
  }
  throw new Error('no fault was told')
}

test('prints exactly the agreed keys, with a trace line for every figure', async () => {
  const printed = await run(example)
  expect(Object.keys(printed)).toEqual(outputKeys)
  const traced = new Set(printed.trace.map((line: { figure: string }) => line.figure))
  // Carryforwards are traced one by one, and there are none here.
  for (const key of outputKeys.filter((name) => name !== 'trace' && name !== 'carryforwards'))
    expect(traced, key).toContain(key)
  for (const line of printed.trace) {
    expect(line.rule.length).toBeGreaterThan(3)
    expect(line.source.length).toBeGreaterThan(3)
    if (line.figure in printed && line.figure !== 'method') expect(line.amount).toBe(printed[line.figure])
  }
})

test('a state adds its income tax with its steps, what is unchecked and what is left out', async () => {
  const printed = await run({ ...example, state: 'PA', localRate: 0.01 })
  // 72 P.S. 7303: wages and farm profit at 3.07 percent, a tenth of the federal earned income credit paid out; 1 percent local.
  const own = 42_000 * 0.0307 - 0.1 * printed.earnedIncomeCredit
  expect(printed.stateIncomeTax).toBeCloseTo(own + 420, 2)
  const figures = printed.trace.map((line: { figure: string }) => line.figure)
  expect(figures).toEqual(expect.arrayContaining(['stateTaxableIncome', 'localIncomeTax', 'stateIncomeTax']))
  const said = JSON.stringify(printed.trace)
  expect(said).toContain('second hand')
  expect(said).toContain('Left out in Pennsylvania: Property tax or rent rebate')
  expect(printed.balanceDue).toBe((await run(example)).balanceDue)
})

test('what a state needs is told at its key', async () => {
  expect(await fault({ ...example, state: 'Penn' })).toContain('state: Enter the two letters of a state')
  expect(await fault({ ...example, localRate: 0.01 })).toContain('localRate: Name the state')
  expect(await fault({ ...example, income: { socialSecurity: 100, secondSocialSecurity: 200 } })).toContain(
    'income.secondSocialSecurity: The second person’s is a part of socialSecurity',
  )
})

test('only year, filing status and people are needed', async () => {
  const printed = await run({ taxYear: 2025, filingStatus: 'single', people: [{ age: 66 }] })
  expect(printed).toMatchObject({ deduction: 15_750 + 2000 + 6000, totalTax: 0, method: 'none' })
})

test('a joint return with one person listed says what it assumes of the other', async () => {
  const printed = await run({ ...example, people: [{ age: 45, blind: false }] })
  expect(JSON.stringify(printed.trace)).toContain('the spouse is taken to be of the same age')
})

test('unknown keys and bad values are told by key with the reason', async () => {
  const message = await fault({
    taxYear: 2026,
    filingStatus: 'joint',
    people: [{ age: 45, blnd: true }],
    income: { wages: ['a lot'], farmProfits: [1] },
    cover: { months: 13 },
  })
  expect(message.split('\n').sort()).toEqual([
    'cover.months: Enter months, 0 to 12',
    'filingStatus: Enter one of: single, married_joint, head_of_household, married_separate, surviving_spouse',
    'income.farmProfits: there is no such key here',
    'income.wages.0: Enter dollars as a number, like 1234.56',
    'people.0.blnd: there is no such key here',
  ])
})

test('what no single key shows is told too', async () => {
  const message = await fault({
    taxYear: 2026,
    filingStatus: 'single',
    people: [{ age: 45 }],
    income: { wages: [1, 2], qualifiedDividends: 5, ordinaryDividends: 4 },
  })
  expect(message).toContain('income.wages.1: There is no second person on this return')
  expect(message).toContain('income.qualifiedDividends: Qualified dividends are a part of ordinary dividends')
})

test('contributions over the year’s limits are told at their field (26 USC 219(b), 404(a)(8), 223(b), 408A(c)(3))', async () => {
  const single = { taxYear: 2026, filingStatus: 'single', people: [{ age: 45 }] }
  const wages = { ...single, income: { wages: [60_000] } }
  expect(await fault({ ...wages, deductions: { traditionalIra: 50_000 } })).toContain(
    'deductions.traditionalIra: Enter at most 7500 for 2026',
  )
  expect(await fault({ ...wages, deductions: { traditionalIra: 5000, rothIra: 3000, hsa: 4401 } })).toMatch(
    /hsa: Enter at most 4400 [\s\S]*rothIra: Enter at most 2500 /,
  )
  // Not more than was earned: 3,000 of pay.
  expect(await fault({ ...single, income: { wages: [3000] }, deductions: { rothIra: 3001 } })).toContain(
    'rothIra: Enter at most 3000',
  )
  // 60,000 of profit less half of 8,477.73 is 55,761.13; a fifth of it.
  expect(await fault({ ...single, income: { farmProfit: [60_000] }, deductions: { sep: 12_000 } })).toContain(
    'sep: Enter at most 11152.23',
  )
  // A solo 401(k) takes the year's deferral of 24,500 as well; a SIMPLE 17,000 and 3 percent of 55,410 of net earnings.
  const own = (deductions: object) => fault({ ...single, income: { farmProfit: [60_000] }, deductions })
  expect(await own({ solo401k: 40_000 })).toContain('solo401k: Enter at most 35652.23')
  expect(await own({ simple: 40_000 })).toContain('simple: Enter at most 18662.3')
  // Of 153,000 to 168,000 a Roth contribution ends: at 160,000 8/15 of 7,500 are left.
  expect(await fault({ ...single, income: { wages: [160_000] }, deductions: { rothIra: 4001 } })).toContain(
    'rothIra: Enter at most 4000',
  )
  // A spouse without pay may use the other's; from 50 each has 8,600.
  const couple = { taxYear: 2026, filingStatus: 'married_joint', people: [{ age: 50 }, { age: 49 }] }
  expect(
    (await run({ ...couple, income: { wages: [60_000] }, deductions: { traditionalIra: 16_100 } }))
      .adjustedGrossIncome,
  ).toBe(43_900)
})

test('beside a plan at work the IRA deduction shrinks: half of it is left in the middle of 81,000 to 91,000 (26 USC 219(g))', async () => {
  const facts = {
    taxYear: 2026,
    filingStatus: 'single',
    people: [{ age: 45 }],
    income: { wages: [86_000] },
    deductions: { traditionalIra: 7500 },
  }
  expect((await run(facts)).adjustedGrossIncome).toBe(78_500)
  const covered = await run({ ...facts, deductions: { traditionalIra: 7500, coveredAtWork: [true] } })
  expect(covered.adjustedGrossIncome).toBe(82_250)
  expect(JSON.stringify(covered.trace)).toContain('3750 of 7500 may be deducted')
})

test('what one year leaves is given to the next under the same names (26 USC 172, 199A(c)(2), 1212(b), 179(b)(3))', async () => {
  const couple = { taxYear: 2026, filingStatus: 'married_joint', people: [{ age: 45 }, { age: 45 }] }
  const loss = await run({ ...couple, income: { farmProfit: [-60_000, 0], shortTermGains: -4000 } })
  expect(loss.carryforwards).toEqual({
    netOperatingLoss: 60_000,
    farmLoss: 60_000,
    carriedBack: 0,
    qualifiedBusiness: 60_000,
    capitalLoss: 4000,
    capitalLossShortTerm: 4000,
    section179: 0,
  })
  expect(loss.trace.map((line: { figure: string }) => line.figure)).toContain('carried.farmLoss')
  const next = await run({
    ...couple,
    income: { farmProfit: [96_000, 0] },
    carryforwards: loss.carryforwards,
  })
  // The capital loss takes 3,000 more: income 86,217.82, taxable 54,017.82, of which 80 % are 43,214.26.
  expect(next.netOperatingLossDeduction).toBe(43_214.26)
  expect(next.carryforwards).toMatchObject({
    netOperatingLoss: 16_785.74,
    farmLoss: 0,
    qualifiedBusiness: 0,
    capitalLoss: 1000,
    capitalLossShortTerm: 1000,
  })
  const back = await run({
    ...couple,
    taxYear: 2025,
    income: { wages: [90_000, 0] },
    carryforwards: { carriedBack: 40_000 },
  })
  expect(back.totalTax).toBe(1850)
  expect(back.carryforwards).toMatchObject({ farmLoss: 0, carriedBack: 0 })
  expect(await fault({ ...couple, carryforwards: { farmLoss: 40_000 } })).toContain('carriedBack')
  expect(
    await fault({ ...couple, carryforwards: { capitalLoss: 1, capitalLossShortTerm: 2, netLoss: 5 } }),
  ).toContain('carryforwards.netLoss: there is no such key here')
})

test('years of loss after each other, each given what the one before printed: not a dollar is lost or counted twice', async () => {
  const couple = { filingStatus: 'married_joint', people: [{ age: 45 }, { age: 45 }] }
  const year = (taxYear: number, profit: number, carryforwards: object) =>
    run({ ...couple, taxYear, income: { farmProfit: [profit, 0] }, carryforwards })
  const first = await year(2024, -20_000, {})
  const second = await year(2025, -15_000, first.carryforwards)
  expect(second.carryforwards).toMatchObject({ netOperatingLoss: 35_000, farmLoss: 15_000, carriedBack: 0 })
  const third = await year(2026, 0, second.carryforwards)
  expect(third.carryforwards).toMatchObject({ netOperatingLoss: 35_000, qualifiedBusiness: 35_000 })
  const fourth = await year(2027, 150_000, third.carryforwards)
  expect(fourth.netOperatingLossDeduction).toBe(35_000)
  expect(fourth.carryforwards).toMatchObject({ netOperatingLoss: 0, farmLoss: 0, carriedBack: 0 })
  // Carried back instead to a year that can use a part of it: the rest is printed for the next, once.
  const back = await run({
    ...couple,
    taxYear: 2024,
    income: { wages: [50_000, 0] },
    carryforwards: { carriedBack: 30_000 },
  })
  const { netOperatingLossDeduction, carryforwards } = back
  expect(netOperatingLossDeduction + carryforwards.carriedBack).toBeCloseTo(30_000, 2)
  expect(carryforwards.farmLoss).toBe(0)
})

test('the months of cover one by one: each is the lesser of its premium and its benchmark less a twelfth (Form 8962, lines 12 to 24)', async () => {
  const single = { taxYear: 2026, filingStatus: 'single', people: [{ age: 64 }], income: { wages: [40_000] } }
  // 255 percent of 15,650: 8.44 + 1.52 x 5 / 50 = 8.59 % (26 CFR 1.36B-3(g)) is 3,436, a twelfth 286.33.
  const half = (first: number, second: number) => [...Array(6).fill(first), ...Array(6).fill(second)]
  const cover = { premiums: half(500, 900), benchmarks: half(250, 1000) }
  // Nothing of the first half; 1,000 less 286.33 in each month of the second. By means it would be 7,500 less 3,436.
  expect((await run({ ...single, cover })).premiumTaxCredit).toBe(4282.02)
  expect(await fault({ ...single, cover: { ...cover, months: 12 } })).toContain('cover.premiums')
})

test('a head of household without a dependent is told', async () => {
  const head = await run({ taxYear: 2026, filingStatus: 'head_of_household', people: [{ age: 45 }] })
  expect(JSON.stringify(head.trace)).toContain('26 USC 2(b)')
})

test('a loss on breeding stock and equipment counts in full (26 USC 1231(a)(2))', async () => {
  const printed = await run({
    taxYear: 2026,
    filingStatus: 'single',
    people: [{ age: 45 }],
    income: { wages: [60_000], section1231: -16_844.5 },
  })
  expect(printed.adjustedGrossIncome).toBe(43_155.5)
})

test('a year before the law, broken JSON, a missing file and a strange kind are told', async () => {
  expect(await fault({ taxYear: 2020, filingStatus: 'single', people: [{ age: 45 }] })).toContain(
    'No figure for “income tax rates” in 2020',
  )
  expect(await fault('{')).toContain('not JSON')
  expect(await fault('', ['no-such-file.json'], 1)).toBe(
    'There is no file at no-such-file.json. Check the name.',
  )
  expect(await fault('', ['--kind', 'toString', '-'])).toContain('There is no kind “toString”')
  expect(await fault('', [])).toContain('Name one JSON file')
})

test('a year past the published law is marked as carried forward', async () => {
  const printed = await run({ ...example, taxYear: 2030 })
  expect(printed.trace.find((line: { figure: string }) => line.figure === 'basis').rule).toContain(
    'past its last',
  )
})

test('the farm optional method is worked, and compared, from gross farm income', async () => {
  const poorYear = {
    ...example,
    income: { ...example.income, wages: [0, 0], farmProfit: [2000, 0], farmGross: [30_000, 0] },
  }
  const regular = await run(poorYear)
  const optional = await run({ ...poorYear, options: { taxTable: false, farmOptionalMethod: 'yes' } })
  // 2,000 × 0.9235 × 15.3 % against 7,560 × 15.3 %.
  expect(regular.selfEmploymentTax).toBeCloseTo(282.59, 2)
  expect(optional.selfEmploymentTax).toBeCloseTo(1156.68, 2)
  const compared = regular.trace.filter(
    (line: { figure: string }) => line.figure === 'selfEmploymentTax by method',
  )
  expect(
    compared.map((line: { inputs: { quartersOfCoverage: string } }) => line.inputs.quartersOfCoverage),
  ).toEqual(['0, 0', '4, 0'])
})

test('kind coverage: a mother in the marketplace and her child in the children’s program, with the county’s premium for her alone', async () => {
  const ask = (householdIncome: number) =>
    run(
      {
        taxYear: 2026,
        state: 'PA',
        county: 'erie',
        people: [{ age: 45 }, { age: 8, dependent: true }],
        householdIncome,
      },
      ['--kind', 'coverage', '-'],
    )
  // 40,000 over the guideline of 2026 for two, 21,640, is 184.84 percent: above 138, within 319.
  const found = await ask(40_000)
  expect(found.percentOfPoverty).toBe(184.84)
  expect(found.people.map((one: { coveredBy: string }) => one.coveredBy)).toEqual([
    'marketplace',
    'children’s program',
  ])
  // 292 for a child at 0.765; 1.444 at 45.
  expect(found.benchmarkMonthly).toBe(551.17)
  // 189 percent of 21,150: 4.19 + 2.41 × 39 / 50 = 6.07 percent of 40,000 is 2,428.
  expect(found.premiumTaxCredit).toBeCloseTo(551.17 * 12 - 2428, 2)
  expect((await ask(25_000)).people[0].coveredBy).toBe('Medicaid')
})

test('kind coverage: from 65 on Medicare covers, and the credit is that of the rest (26 USC 36B(c)(2)(B)); saints are found in full', async () => {
  const ask = (people: object[]) =>
    run({ taxYear: 2026, state: 'MO', county: 'Saint Louis County', people, householdIncome: 60_000 }, [
      '--kind',
      'coverage',
      '-',
    ])
  const both = await ask([{ age: 67 }, { age: 58 }])
  expect(both.people.map((one: { coveredBy: string }) => one.coveredBy)).toEqual(['Medicare', 'marketplace'])
  const alone = await ask([{ age: 58 }])
  expect(both.benchmarkMonthly).toBe(alone.benchmarkMonthly)
})

test('kind premium: a couple on the federal curve with the credit at their income', async () => {
  const printed = await run(
    {
      taxYear: 2026,
      covered: [{ age: 45 }, { age: 43 }],
      known: { age: 45, premiumMonthly: 577.6 },
      householdIncome: 60_000,
    },
    ['--kind', 'premium', '-'],
  )
  expect(printed).toMatchObject({
    rating: 'federal',
    premiumMonthly: 1120.4,
    povertyLine: 21_150,
    povertyPercent: 283,
    applicablePercent: 9.44,
    yearlyContribution: 5664,
    premiumTaxCredit: 7780.8,
    silverValue: 0.7,
  })
})

test('withdrawals before 59½: the addition, what is free of it, Roth contributions first (26 USC 72(t), 408A(d))', async () => {
  const facts = {
    taxYear: 2026,
    filingStatus: 'single',
    people: [{ age: 56 }],
    income: { wages: [40_000] },
  }
  const taxWith = async (...withdrawals: object[]) => {
    const told = await run({ ...facts, withdrawals })
    return { income: told.adjustedGrossIncome as number, tax: told.totalTax as number }
  }
  const none = await taxWith()
  const early = await taxWith({ from: 'ira', amount: 10_000, age: 52 })
  const even = await taxWith({ from: 'ira', amount: 10_000, age: 52, evenPayment: true })
  expect(early.income - none.income).toBe(10_000)
  expect(early.tax - even.tax).toBe(1000)
  expect(await taxWith({ from: 'workPlan', amount: 10_000, age: 56, leftWorkInYearOfAge: 55 })).toEqual(even)
  expect(await taxWith({ from: 'workPlan', amount: 10_000, age: 56, leftWorkInYearOfAge: 54 })).toEqual(early)
  expect(await taxWith({ from: 'roth', amount: 10_000, age: 50, contributionsLeft: 12_000 })).toEqual(none)
  expect(await taxWith({ from: 'roth', amount: 22_000, age: 50, contributionsLeft: 12_000 })).toEqual(early)
  expect(await taxWith({ from: 'roth', amount: 22_000, age: 59.5 })).toEqual(none)
})

test('health savings: what paid for care is free, the rest is income with a fifth more before 65 (Form 8889, lines 15 to 17b)', async () => {
  const facts = { taxYear: 2026, filingStatus: 'single', people: [{ age: 56 }], income: { wages: [40_000] } }
  const taxWith = async (forCare: number, age: number) => {
    const told = await run({ ...facts, withdrawals: [{ from: 'hsa', amount: 3000, forCare, age }] })
    return { income: told.adjustedGrossIncome, tax: told.totalTax as number, added: told.healthSavingsTax }
  }
  expect(await taxWith(3000, 56)).toMatchObject({ income: 40_000, added: undefined })
  const old = await taxWith(1000, 65)
  const young = await taxWith(1000, 64)
  expect(old).toMatchObject({ income: 42_000, added: 0 })
  expect(young).toMatchObject({ income: 42_000, added: 400 })
  expect(young.tax - old.tax).toBe(400)
})

test('farm income averaging: the base years as told, the elected income printed, a year without rates named', async () => {
  const farm = {
    taxYear: 2026,
    filingStatus: 'single',
    people: [{ age: 45 }],
    income: { farmProfit: [110_000] },
  }
  const lean = { filingStatus: 'single', taxableIncome: 4000 }
  const plain = await run(farm)
  const told = await run({ ...farm, farmAveraging: { baseYears: [lean, lean, lean] } })
  expect(plain.averagedFarmIncome).toBeUndefined()
  expect(told.averagedFarmIncome as number).toBeGreaterThan(30_000)
  expect(told.incomeTax as number).toBeLessThan((plain.incomeTax as number) - 2000)
  const few = await run({ ...farm, farmAveraging: { baseYears: [lean, lean, lean], elected: 9000 } })
  expect(few.averagedFarmIncome).toBe(9000)
  await expect(
    run({ ...farm, taxYear: 2025, farmAveraging: { baseYears: [lean, lean, lean] } }),
  ).rejects.toThrow('2022')
})
