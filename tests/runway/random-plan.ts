// Random valid plans for property tests: every section can be empty or full, amounts stay in the range of a household.
import fc from 'fast-check'
import { ageRatings } from '#plan/health-plan.ts'
import { type Plan, type PlanInput, planSchema } from '#plan/plan.ts'
import { conversionFaults } from '#plan/savings/conversions.ts'

const dollars = (most: number) => fc.integer({ min: 0, max: most * 4 }).map((quarters) => quarters / 4)
const share = fc.integer({ min: 0, max: 20 }).map((twentieths) => twentieths / 20)
const rate = (least: number, most: number) =>
  fc.integer({ min: Math.round(least * 1000), max: Math.round(most * 1000) }).map((mills) => mills / 1000)
const monthText = fc
  .tuple(fc.integer({ min: 2025, max: 2045 }), fc.integer({ min: 1, max: 12 }))
  .map(([year, month]) => `${year}-${String(month).padStart(2, '0')}`)
const maybe = <Value>(value: fc.Arbitrary<Value>) => fc.option(value, { nil: undefined })

const span = fc.tuple(maybe(monthText), maybe(monthText)).map(([a, b]) => {
  const [from, to] = a !== undefined && b !== undefined && a > b ? [b, a] : [a, b]
  return { ...(from === undefined ? {} : { from }), ...(to === undefined ? {} : { to }) }
})

const born = (least: number, most: number) =>
  fc
    .tuple(
      fc.integer({ min: least, max: most }),
      fc.integer({ min: 1, max: 12 }),
      fc.integer({ min: 1, max: 28 }),
    )
    .map(
      ([year, month, date]) => `${year}-${String(month).padStart(2, '0')}-${String(date).padStart(2, '0')}`,
    )

const person = (id: string) =>
  fc.record({
    id: fc.constant(id),
    name: fc.constant(id),
    born: born(1955, 1995),
    planToAge: fc.integer({ min: 75, max: 92 }),
    claimAge: fc.record({ years: fc.integer({ min: 62, max: 69 }), months: fc.integer({ min: 0, max: 11 }) }),
    farmWorkShare: share,
    earnings: fc
      .tuple(fc.integer({ min: 1990, max: 2010 }), dollars(70_000))
      .map(([first, amount]) => Array.from({ length: 14 }, (_, k) => ({ year: first + k, amount }))),
  })

const people = fc.oneof(
  fc.constant([]),
  person('ash').map((one) => [one]),
  fc.tuple(person('ash'), person('birch')),
)

const mix = fc.tuple(share, share).map(([stocks, rest]) => {
  const bonds = Math.floor((1 - stocks) * rest * 1000) / 1000
  return { stocks, bonds, bills: Math.floor((1 - stocks - bonds) * 1000) / 1000 }
})

/** One account in four came from somebody who died in these years. */
const inheritance = fc.oneof(
  { weight: 3, arbitrary: fc.constant({}) },
  {
    weight: 1,
    arbitrary: fc.record({
      inherited: fc.constantFrom('tenYears' as const, 'lifetime' as const, 'spouse' as const),
      inheritedIn: fc
        .tuple(fc.integer({ min: 2016, max: 2027 }), fc.integer({ min: 1, max: 12 }))
        .map(([year, month]) => `${year}-${String(month).padStart(2, '0')}`),
      inheritedFromBorn: maybe(fc.integer({ min: 1930, max: 1975 })),
      inheritedTaken: maybe(fc.constantFrom('least' as const, 'evenly' as const)),
    }),
  },
)

const retirement = fc
  .record(
    {
      heldAs: fc.constantFrom('ira' as const, 'workPlan' as const),
      leftWork: monthText,
      evenPaymentsFrom: monthText,
      evenPaymentsBy: fc.constantFrom('lifeExpectancy' as const, 'amortization' as const, 'annuity' as const),
      evenPaymentsAmount: dollars(9000),
      evenPaymentsRate: rate(0, 0.08),
      evenPaymentsFactor: fc.integer({ min: 10, max: 30 }),
    },
    { requiredKeys: [] },
  )
  .chain((one) => inheritance.map((inherited) => ({ ...one, ...inherited })))
  .map((one) =>
    one.evenPaymentsBy === 'annuity' ? { ...one, evenPaymentsFactor: one.evenPaymentsFactor ?? 18 } : one,
  )

const account = (kind: 'cash' | 'taxable' | 'traditional' | 'roth') =>
  fc
    .record({ balance: dollars(300_000), mix, fee: rate(0, 0.01), basisShare: share, retirement })
    .map(({ balance, mix: held, fee, basisShare, retirement: told }) => ({
      ...(kind === 'traditional' || kind === 'roth' ? told : {}),
      id: kind,
      name: kind,
      kind,
      balance,
      basis: balance * basisShare,
      mix: held,
      fee,
    }))

/** Half of the plans convert, where both accounts are there and one person's. */
const conversion = fc.oneof(
  fc.constant(null),
  fc.record({
    upTo: fc.constantFrom('amount' as const, 'poverty' as const, 'bracket' as const),
    perYear: dollars(30_000),
    percent: fc.constantFrom(138, 200, 250, 400),
    rate: fc.constantFrom(0, 0.1, 0.12, 0.22),
    fromYear: maybe(fc.integer({ min: 2024, max: 2035 })),
    toYear: maybe(fc.integer({ min: 2026, max: 2045 })),
  }),
)

const draw = fc.oneof(
  fc.record({
    policy: fc.constant('steps' as const),
    steps: fc.array(fc.record({ from: monthText, perMonth: dollars(8000) }), { maxLength: 4 }),
    growth: rate(0, 0.05),
    withPrices: fc.boolean(),
  }),
  fc.tuple(monthText, monthText, share, share).map(([a, b, fromShare, toShare]) => ({
    policy: 'ramp' as const,
    from: [a, b].sort()[0]!,
    to: [a, b].sort()[1]!,
    fromShare,
    toShare,
  })),
  fc.record({ policy: fc.constant('share' as const), from: monthText, share }),
  fc.record({ policy: fc.constant('sweep' as const), from: monthText }),
)

/** Paid in level payments, by a payment of its own with the rest at the end, or by a payment until it is paid. */
const loan = fc
  .record({
    id: fc.constant('loan'),
    name: fc.constant('loan'),
    principal: dollars(30_000),
    yearlyRate: rate(0, 0.1),
    start: monthText,
    drawn: fc.boolean(),
  })
  .chain((terms) =>
    fc.oneof(
      fc.integer({ min: 6, max: 120 }).map((months) => ({ ...terms, months })),
      fc
        .tuple(fc.integer({ min: 6, max: 120 }), dollars(900))
        .map(([months, paymentPerMonth]) => ({ ...terms, months, paymentPerMonth })),
      fc.integer({ min: 300, max: 900 }).map((paymentPerMonth) => ({ ...terms, paymentPerMonth })),
    ),
  )

const farm = fc.record({
  cash: dollars(40_000),
  reserve: dollars(15_000),
  enterprises: fc.array(
    fc.record({
      id: fc.constantFrom('beds', 'hives', 'birds'),
      name: fc.constant('crop'),
      scale: fc.integer({ min: 0, max: 40 }),
      salesPerUnit: dollars(4000),
      costsPerUnit: dollars(1500),
      hoursPerUnit: dollars(60),
      scaleSteps: fc.array(fc.record({ from: monthText, value: fc.integer({ min: 0, max: 60 }) }), {
        maxLength: 2,
      }),
    }),
    { maxLength: 2 },
  ),
  herds: fc.array(
    fc.record({
      id: fc.constant('flock'),
      name: fc.constant('flock'),
      kind: fc.constantFrom('sheep' as const, 'cattle' as const, 'layers' as const),
      start: monthText,
      breedingFemales: fc.integer({ min: 0, max: 12 }),
      carryingLimit: fc.integer({ min: 0, max: 15 }),
      prices: fc.record({
        breedingFemale: dollars(900),
        male: dollars(900),
        youngSold: dollars(300),
        cullFemale: dollars(400),
      }),
      stockWriteOff: fc.constantFrom('bonus' as const, 'section179' as const, 'overYears' as const),
    }),
    { maxLength: 1 },
  ),
  overheads: fc.array(
    fc.record({ id: fc.constant('overhead'), name: fc.constant('overhead'), costs: dollars(9000) }),
    { maxLength: 1 },
  ),
  purchases: fc.array(
    fc.record({
      id: fc.constantFrom('tunnel', 'tractor'),
      name: fc.constant('thing'),
      cost: dollars(15_000),
      timing: fc.constantFrom('dated' as const, 'when cash allows' as const),
      month: monthText,
      section179Share: share,
      bonus: fc.boolean(),
      addsCash: dollars(4000),
      savesHours: dollars(400),
      worksAfterMonths: fc.integer({ min: 0, max: 18 }),
      usefulYears: fc.integer({ min: 1, max: 12 }),
      valueAtEnd: dollars(2000),
    }),
    { maxLength: 3 },
  ),
  loans: fc.array(loan, { maxLength: 1 }),
})

const household = fc.record({
  people,
  living: fc.array(
    fc
      .tuple(
        fc.record({
          perMonth: dollars(3000),
          growth: fc.constantFrom('inflation' as const, 'care' as const, 'fixed' as const),
          extraGrowth: rate(-0.02, 0.03),
          farmShare: share,
          careOfChildren: fc.boolean(),
        }),
        span,
      )
      .map(([line, when]) => ({ ...line, ...when })),
    { maxLength: 3 },
  ),
  oneOffs: fc.array(
    fc.record({
      month: monthText,
      cost: fc.integer({ min: -20_000, max: 30_000 }),
      todaysPrices: fc.boolean(),
    }),
    { maxLength: 2 },
  ),
  floor: fc.oneof(
    fc.record({ kind: fc.constant('months' as const), months: fc.integer({ min: 0, max: 24 }) }),
    fc.record({ kind: fc.constant('dollars' as const), dollars: dollars(60_000) }),
  ),
  pay: fc.array(
    fc.record({
      perMonth: dollars(4000),
      months: fc.constantFrom([], [], [1, 2, 3, 4, 5, 6, 9, 10, 11, 12], [7]),
      withheldShare: share.map((one) => one / 4),
      survivorShare: maybe(share),
      kind: fc.constantFrom('wages' as const, 'wages' as const, 'pension' as const, 'fixedPension' as const),
    }),
    {
      maxLength: 1,
    },
  ),
  loans: fc.array(loan, { maxLength: 2 }),
  ventures: fc.array(
    fc
      .tuple(
        fc.record({
          perMonth: dollars(2000),
          costShare: share,
          growth: rate(-0.1, 0.1),
          setAsideShare: share,
          costPerMonth: dollars(900),
        }),
        span,
        fc.record(
          { cash: fc.integer({ min: -2000, max: 9000 }), keeps: dollars(5000) },
          { requiredKeys: [] },
        ),
      )
      .map(([venture, when, held]) => ({ ...venture, ...when, ...held })),
    { maxLength: 2 },
  ),
  children: fc.array(born(2008, 2030), { maxLength: 3 }),
  relatives: fc.array(
    fc.record(
      {
        born: born(1935, 1985),
        relation: fc.constant('relative' as const),
        planToAge: fc.integer({ min: 40, max: 100 }),
        ownMoney: fc.integer({ min: 0, max: 2500 }),
      },
      { requiredKeys: ['born', 'relation'] },
    ),
    { maxLength: 1 },
  ),
})

export interface PlanTraits {
  method?: 'law' | 'share' | 'none'
}

/** A valid plan. Months of its parts may lie before its start or after its end. */
export const randomPlan = (traits: PlanTraits = {}): fc.Arbitrary<Plan> =>
  fc
    .record({
      startMonth: fc
        .tuple(fc.integer({ min: 2026, max: 2029 }), fc.integer({ min: 1, max: 12 }))
        .map(([year, month]) => `${year}-${String(month).padStart(2, '0')}`),
      years: fc.integer({ min: 2, max: 25 }),
      household,
      accounts: fc.tuple(
        account('cash'),
        maybe(account('taxable')),
        maybe(account('traditional')),
        maybe(account('roth')),
      ),
      // A place among the people; −1, and a place that nobody has: no owner told.
      accountOwners: fc.array(fc.integer({ min: -1, max: 1 }), { minLength: 4, maxLength: 4 }),
      reserveMonths: fc.integer({ min: 0, max: 24 }),
      spendOrder: fc.shuffledSubarray(['cash', 'taxable', 'traditional', 'roth', 'roth-contributions'], {
        minLength: 3,
      }),
      surplusToRetirement: share,
      conversion,
      retirementIsSpendable: fc.boolean(),
      spendRetirementBeforeAge: fc.boolean(),
      premium: dollars(900),
      // None typed: those published for the county, where the place has one.
      benchmarkAt21: fc.oneof(dollars(500), fc.constant(0)),
      countyPlan: fc.constantFrom('benchmark' as const, 'bronze' as const),
      medicaidExpansion: fc.boolean(),
      place: fc.constantFrom(
        {},
        { state: 'PA' as const, county: 'Erie County' },
        { state: 'MN' as const, county: 'Clay County' },
        { state: 'TX' as const },
        { state: 'MI' as const, propertyTax: 4200, rent: 900 },
      ),
      ageRating: fc.constantFrom(...ageRatings),
      care: dollars(300),
      farm,
      crewHours: maybe(fc.array(fc.integer({ min: 0, max: 50 }), { minLength: 2, maxLength: 2 })),
      draw,
      method: traits.method
        ? fc.constant(traits.method)
        : fc.constantFrom('law' as const, 'share' as const, 'none' as const),
      farmLosses: fc.constantFrom('forward' as const, 'back' as const),
      averageFarmIncome: fc.boolean(),
      withheldForState: maybe(share),
      carriedLoss: maybe(dollars(40_000)),
      incomeBefore: dollars(120_000),
      inflation: rate(0, 0.06),
      growth: fc.constantFrom(
        {},
        { medicareGrowth: 0.07, medicareGrowthUntil: 2031, careGrowthUntil: 2029 },
        { premiumGrowthUntil: 2028 },
      ),
      priceSteps: fc.constantFrom('yearly' as const, 'monthly' as const),
      timing: fc.constantFrom('start' as const, 'end' as const),
      stocks: rate(-0.02, 0.09),
    })
    .map((parts) => planSchema.parse(assemble(parts)))

interface Holding {
  name: string
  balance: number
  heldAs?: 'ira' | 'workPlan' | undefined
  inherited?: 'tenYears' | 'lifetime' | 'spouse' | undefined
}

type Parts = {
  startMonth: string
  years: number
  household: {
    people: readonly { id: string }[]
    living: object[]
    oneOffs: object[]
    floor: object
    pay: object[]
    loans: object[]
    ventures: object[]
    children: string[]
    relatives: object[]
  }
  accounts: (({ id: string; kind: 'cash' | 'taxable' | 'traditional' | 'roth' } & Holding) | undefined)[]
  accountOwners: number[]
  reserveMonths: number
  spendOrder: string[]
  surplusToRetirement: number
  conversion: object | null
  retirementIsSpendable: boolean
  spendRetirementBeforeAge: boolean
  premium: number
  benchmarkAt21: number
  countyPlan: 'benchmark' | 'bronze'
  medicaidExpansion: boolean
  withheldForState?: number | undefined
  place: { state?: 'PA' | 'MN' | 'TX' | 'MI'; county?: string; propertyTax?: number; rent?: number }
  ageRating: (typeof ageRatings)[number]
  care: number
  farm: { enterprises: { id: string }[]; purchases: { id: string }[] }
  crewHours: number[] | undefined
  draw: object
  method: 'law' | 'share' | 'none'
  farmLosses: 'forward' | 'back'
  averageFarmIncome: boolean
  carriedLoss: number | undefined
  incomeBefore: number
  inflation: number
  growth: { [rate: string]: number }
  priceSteps: 'yearly' | 'monthly'
  timing: 'start' | 'end'
  stocks: number
}

const assemble = (parts: Parts): PlanInput => {
  const { household: home } = parts
  const numbered = (list: object[], word: string) =>
    list.map((one, place) => ({ id: `${word}-${place}`, name: word, ...one }))
  const someone = home.people[0]?.id
  const accounts = parts.accounts.flatMap((one, place) => {
    const owner = home.people[parts.accountOwners[place]!]?.id
    return one === undefined ? [] : [{ ...one, ...(owner === undefined ? {} : { owner }) }]
  })
  const held = accounts.map((one) => ({ ...one, heldAs: one.heldAs ?? 'ira' }))
  const between = { from: 'traditional', into: 'roth' }
  return {
    startMonth: parts.startMonth,
    years: parts.years,
    household: {
      place: parts.place,
      people: home.people.map((one, place) =>
        isWithinYear(parts.startMonth) ? { ...one, putInSoFar: putInOf(parts.incomeBefore, place) } : one,
      ),
      dependents: [
        ...home.children.map((born, place) => ({ id: `child-${place}`, name: 'child', born })),
        ...numbered(home.relatives, 'relative'),
      ],
      living: numbered(home.living, 'living'),
      oneOffs: numbered(home.oneOffs, 'one-off'),
      floor: home.floor,
      pay: someone === undefined ? [] : numbered(home.pay, 'pay').map((one) => ({ ...one, person: someone })),
      loans: home.loans.map((one, place) => ({ ...one, id: `loan-${place}` })),
      sideVentures: numbered(home.ventures, 'venture').map((one) =>
        someone === undefined ? one : { ...one, person: someone },
      ),
    },
    health: {
      premiums: [{ id: 'premium', name: 'premium', perMonth: parts.premium }],
      marketplace: {
        members: [
          ...home.people.map((one) => one.id),
          ...home.children.map((_, place) => `child-${place}`),
          ...home.relatives.map((_, place) => `relative-${place}`),
        ].map((person) => ({ person })),
        ageRating: parts.ageRating,
        benchmarkAt21: parts.benchmarkAt21,
        planAt21: parts.benchmarkAt21 * 0.9,
        countyPlan: parts.countyPlan,
      },
      medicaidExpansion: parts.medicaidExpansion,
      careBefore65: parts.care,
      careFrom65: parts.care * 1.5,
    },
    savings: {
      accounts,
      conversions:
        parts.conversion === null || conversionFaults(between, held, someone).length > 0
          ? []
          : [{ id: 'conversion', ...between, ...parts.conversion }],
      reserveMonths: parts.reserveMonths,
      spendOrder: parts.spendOrder,
      surplusToRetirement: parts.surplusToRetirement,
      retirementIsSpendable: parts.retirementIsSpendable,
      spendRetirementBeforeAge: parts.spendRetirementBeforeAge,
    },
    farm: {
      ...parts.farm,
      crew: (parts.crewHours ?? []).flatMap((weeklyHours, place) => {
        const who = home.people[place]?.id
        return who === undefined ? [] : [{ who, weeklyHours }]
      }),
      enterprises: parts.farm.enterprises.map((one, place) => ({ ...one, id: `${one.id}-${place}` })),
      purchases: parts.farm.purchases.map((one, place) => ({ ...one, id: `${one.id}-${place}` })),
    },
    draw: parts.draw,
    tax: {
      method: parts.method,
      farmLosses: parts.farmLosses,
      averageFarmIncome: parts.averageFarmIncome,
      withheldForState: parts.withheldForState,
      carried: { netOperatingLoss: parts.carriedLoss ?? 0, longTermLoss: (parts.carriedLoss ?? 0) / 4 },
      ...(someone !== undefined && isWithinYear(parts.startMonth)
        ? { soFar: soFarOf(parts.incomeBefore) }
        : {}),
      lastYear: {
        adjustedGrossIncome: parts.incomeBefore,
        taxableIncome: parts.incomeBefore * 0.7,
        incomeTwoYearsBack: parts.incomeBefore / 2,
        stillDue: Math.round(parts.incomeBefore / 50) - 200,
        taxableIncomeTwoYearsBack: parts.incomeBefore * 0.3,
        taxableIncomeThreeYearsBack: parts.incomeBefore * 0.1,
      },
    },
    assumptions: {
      inflation: parts.inflation,
      ...parts.growth,
      priceSteps: parts.priceSteps,
      timing: parts.timing,
      stocks: parts.stocks,
    },
  } as PlanInput
}

/** In an even month; the others of the year begin as if nothing had come before. */
const isWithinYear = (month: string): boolean => Number(month.slice(5)) % 2 === 0

/** One month of the marketplace behind, at a premium of its own. */
const soFarOf = (incomeBefore: number) => ({
  wages: Math.round(incomeBefore / 7),
  otherSelfEmployment: Math.round(incomeBefore / 90),
  otherIncome: Math.round(incomeBefore / 50),
  earlyWithdrawals: Math.round(incomeBefore / 75),
  propertyGain: Math.round(incomeBefore / 25) - 600,
  ordinaryGain: Math.round(incomeBefore / 110) - 150,
  healthPremiums: 210,
  marketplaceMonths: 1,
  marketplacePremiums: 940,
  marketplaceBenchmark: 1010,
  advanceCredit: Math.min(700, Math.round(incomeBefore / 60)),
  paid: Math.round(incomeBefore / 80),
})

const putInOf = (incomeBefore: number, place: number) => ({
  traditional: Math.round(incomeBefore / (20 + 15 * place)),
  roth: Math.round(incomeBefore / 60),
  ownPlan: Math.round(incomeBefore / 45),
  health: place === 0 ? 350 : 0,
})
