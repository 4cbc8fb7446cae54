// The model written a second time, as plainly as it reads: decimal arithmetic, one pass over the plan's own lines each month,
// no arrays made beforehand, no code shared with src/runway. The law's functions, the farm's course and the age curve are
// taken from their own rooms: what is checked here is the order and the arithmetic of months and years.
import { day } from '#calendar/day.ts'
import { type Month, monthText, parseMonth } from '#calendar/month.ts'
import { farmCourse, herdLimits } from '#farm/course.ts'
import { herdMonths } from '#farm/herd/herd-months.ts'
import { heldEachMonth, spreadOverYear } from '#farm/seasonal.ts'
import { Decimal } from '#money/decimal.ts'
import {
  benchmarkPremiums,
  limitsOfPlan,
  planPremiums,
  ratingPlaceOf,
} from '#plan/place/follows-from-place.ts'
import type { Plan } from '#plan/plan.ts'
import { isOwnPlan } from '#plan/savings-plan.ts'
import { birthMonthByLaw } from '#rules/age-by-law.ts'
import { noCarryforwards } from '#rules/carryforwards.ts'
import { contributionLimits, deductibleIra, rothAllowed } from '#rules/contribution-limits.ts'
import { programOf, standingOf } from '#rules/coverage/program-of.ts'
import { singleLifeExpectancy } from '#rules/data/inherited-accounts.ts'
import { familyTiers } from '#rules/data/state-age-curves.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { deductionShares } from '#rules/depreciation/rates.ts'
import { firstRecoveryYear } from '#rules/depreciation/recovery.ts'
import { bonusShare } from '#rules/depreciation/write-offs.ts'
import {
  emptyHouseholdTax,
  emptyHouseholdYear,
  type HouseholdTax,
  type HouseholdYear,
} from '#rules/household-year.ts'
import { lawFor, rateLawFor } from '#rules/law.ts'
import { ageFactor } from '#rules/marketplace/premium-by-age.ts'
import { povertyLineCents, yearlyContribution } from '#rules/marketplace/premium-credit.ts'
import { medicareYear } from '#rules/medicare/medicare-year.ts'
import { medicarePremiumMonthly } from '#rules/medicare/premiums.ts'
import { distributionDivisor } from '#rules/required-distributions.ts'
import { assessHousehold } from '#rules/return/assess-household.ts'
import type { BaseYear } from '#rules/return/farm-averaging.ts'
import { benefitLaw } from '#rules/social-security/benefit-law.ts'
import { fullRetirementAgeMonths } from '#rules/social-security/claim-factors.ts'
import { earningsTestWithheld, monthsGivenBack } from '#rules/social-security/earnings-test.ts'
import {
  benefitPerson,
  householdBenefits,
  setPrimaryAmounts,
} from '#rules/social-security/household-benefits.ts'
import { stateDatesOf } from '#rules/states/state-dates.ts'
import { stateLaws } from '#rules/states/typed-tax.ts'
import type { PlanOfDay } from '#runway/compile/plan-of-day.ts'

type D = Decimal
const d = (value: number | string | D): D => new Decimal(typeof value === 'number' ? String(value) : value)
const zero = d(0)
const least = (a: D, b: D): D => (a.lt(b) ? a : b)
const most = (a: D, b: D): D => (a.gt(b) ? a : b)
const positive = (a: D): D => most(a, zero)
const sum = (list: readonly D[]): D => list.reduce((a, b) => a.plus(b), zero)

/** Broken powers took four tenths of the time, and each month asks for the same ones again. */
const powers = new Map<string, D>()
const power = (base: D, exponent: D): D => {
  const key = `${base} ${exponent}`
  const value = powers.get(key) ?? base.pow(exponent)
  powers.set(key, value)
  return value
}

/** Remembers answers by one number: the pass asks for the same month's lines many times. */
const once = <Value>(find: (key: number) => Value): ((key: number) => Value) => {
  const known = new Map<number, Value>()
  return (key) => {
    const found = known.get(key)
    if (found !== undefined) return found
    const value = find(key)
    known.set(key, value)
    return value
  }
}

export interface PlainMonth {
  month: string
  draw: D
  unmetDraw: D
  farmCash: D
  ventureCash: D
  living: D
  premiums: D
  care: D
  taxes: D
  stateTaxes: D
  socialSecurity: D
  othersBenefits: D
  cash: D
  taxable: D
  traditional: D
  roth: D
  taxOwed: D
  spendable: D
  farmGoods: D
  farmHours: D
  hiredHours: D
  farmSales: D
  farmCosts: D
  contribution: D
  unmetNeed: D
  floor: D
}

interface Holding {
  kind: 'cash' | 'taxable' | 'traditional' | 'roth'
  owner: number
  balance: D
  basis: D
  /** What the plan says of it: a plan at work, when that employer was left, even payments. */
  said: Plan['savings']['accounts'][number]
  evenMonthly: D
  ownRoom: D
  /** By year: converted in it and still there. */
  converted: Map<number, D>
}

/** The expected course of a plan, month by month. Covers all but storms and drawn shocks. */
export const plainCourse = (plan: PlanOfDay): PlainMonth[] => {
  const first = parseMonth(plan.startMonth)!
  const firstYear = Math.floor(first / 12)
  const people = plan.household.people
  const born = people.map((one) => parseMonth(one.born.slice(0, 7))! - (one.born.endsWith('-01') ? 1 : 0))
  /** The calendar's month of birth: ages for retirement accounts and the plan's end turn on the birthday. */
  const birthday = people.map((one) => parseMonth(one.born.slice(0, 7))!)
  const lastOf = (p: number) => birthday[p]! + people[p]!.planToAge * 12
  const months =
    people.length === 0
      ? plan.years * 12
      : Math.min(1200, Math.max(12, Math.max(...people.map((_, p) => lastOf(p))) - first + 1))
  const { farm } = plan
  const course = farmCourse(farm, first as Month, months)
  const described =
    farm.cash !== 0 ||
    farm.enterprises.length +
      farm.herds.length +
      farm.overheads.length +
      farm.loans.length +
      farm.purchases.length +
      farm.phases.length >
      0
  const a = plan.assumptions
  const indexing = steadyIndexing(a.inflation, a.wageGrowth)
  const premiumsUntil = a.premiumGrowthUntil ?? 9999
  const medicareRate = a.medicareGrowth ?? a.premiumGrowth
  const medicareUntil =
    (a.medicareGrowth === undefined ? a.premiumGrowthUntil : a.medicareGrowthUntil) ?? 9999
  const careRate = (into: number) => (into > (a.careGrowthUntil ?? 9999) ? a.inflation : a.careGrowth)
  const lastYear = firstYear + Math.ceil(months / 12) + 1
  const law = benefitLaw(Math.max(lastYear, ...born.map((m) => Math.floor(m / 12) + 73), 2030), indexing)
  const byLaw = plan.tax.method === 'law'
  const lawOf = once((year: number) => lawFor(year, indexing))
  const medicareOf = once((year: number) =>
    medicareYear(year, indexing, (y) => {
      const rates = Array.from({ length: Math.max(0, y - 2026) }, (_, k) =>
        2027 + k > medicareUntil ? a.inflation : medicareRate,
      )
      return (
        rates.reduce((level, rate) => level * (1 + rate), 1) /
        (y < 2026 ? (1 + medicareRate) ** (2026 - y) : 1)
      )
    }),
  )

  // What is carried along.
  const holdings: Holding[] = plan.savings.accounts.map((one) => {
    const named = people.findIndex((person) => person.id === one.owner)
    const retirement = one.kind === 'traditional' || one.kind === 'roth'
    if (one.kind === 'health')
      throw new Error('Health savings are not written here: tests/runway/health-savings.test.ts')
    return {
      kind: one.kind,
      owner: named < 0 && retirement && people.length > 0 ? 0 : named,
      balance: d(one.balance),
      basis: d(one.basis ?? one.balance),
      said: one,
      evenMonthly: zero,
      ownRoom: zero,
      converted: new Map(),
    }
  })
  // By person: the first tax year with money in a Roth account (26 USC 408A(d)(2)(B)).
  const rothYear = [0, 1].map((p) =>
    Math.min(
      Number.POSITIVE_INFINITY,
      ...holdings
        .filter(
          (one) => one.kind === 'roth' && one.said.inherited === undefined && Math.max(0, one.owner) === p,
        )
        .map(({ said }) => said.rothSince ?? (said.balance > 0 ? 0 : Number.POSITIVE_INFINITY)),
    ),
  )
  const rothBegins = (holding: Holding, year: number) => {
    const p = Math.max(0, holding.owner)
    if (holding.kind === 'roth') rothYear[p] = Math.min(rothYear[p]!, year)
  }
  const isRothNew = (holding: Holding, year: number) =>
    holding.said.inherited === undefined && year <= rothYear[Math.max(0, holding.owner)]! + 4
  const cashPlace = holdings.findIndex((one) => one.kind === 'cash')
  const taxablePlace = holdings.findIndex((one) => one.kind === 'taxable')
  const named = plan.savings.requiredDistributionsTo
  const requiredPlace =
    named === undefined ? taxablePlace : plan.savings.accounts.findIndex((one) => one.id === named)
  const retirementPlace = people.map((person, p) =>
    plan.savings.accounts.findIndex(
      (one) =>
        (one.kind === 'traditional' || one.kind === 'roth') &&
        one.heldAs === 'ira' &&
        one.inherited === undefined &&
        (one.owner === person.id || (one.owner === undefined && p === 0)),
    ),
  )
  const growth = holdings.map((_, place) => monthlyGrowth(plan, place))
  const interestOf = holdings.map((_, place) => monthlyInterest(plan, place))
  const dividendOf = holdings.map((_, place) => monthlyDividend(plan, place))
  let farmCash = d(farm.cash)
  let level = d(1)
  let careLevel = d(1)
  let premiumLevel = d(1)
  let medicareLevel = d(1)
  let lastTax = d(plan.tax.lastYear.tax)
  let lastOfState = d(plan.tax.lastYear.stateTax)
  let estimateOfState = zero
  const stateDates = stateDatesOf(plan.household.place.state)
  const monthIn = (monthDay: string) => Number(monthDay.slice(0, 2)) - 1
  const stateReturnSeason = monthIn(stateDates.return)
  const stateShareIn = (season: number): D =>
    sum(stateDates.estimated.map((one, k) => (monthIn(one) === season ? d(stateDates.shares[k]!) : zero)))
  let aheadForState = zero
  const { january = 0, stateJanuary = 0, stateReturn = 0 } = plan.settles ?? {}
  let stateDueJanuary = first % 12 === 0 ? d(stateJanuary) : zero
  let stateDueLater = first % 12 <= stateReturnSeason ? d(stateReturn) : zero
  let lastIncome = d(plan.tax.lastYear.adjustedGrossIncome)
  let wasFarmer = plan.tax.lastYear.farmShare >= 2 / 3
  let dueJanuary = first % 12 === 0 ? d(january) : zero
  let dueApril =
    first % 12 <= 3
      ? d(plan.tax.lastYear.stillDue).minus(january).minus(stateJanuary).minus(stateReturn)
      : zero
  let earnedAhead = zero
  let averageRate = zero
  let matchDue = people.map(() => zero)
  const takenFromRetirement: D[] = []
  let estimate = zero
  let quarterly = zero
  let advanceIn: D[] = Array.from({ length: 12 }, () => zero)
  let needReal = zero
  let incomeBeyondReal = zero
  const medicareIncomes: Record<number, D> = {}
  const jointIn: Record<number, boolean> = {}
  const netFarm: D[] = plan.draw.policy === 'share' ? netBefore(plan, farm, first) : []
  const bought = new Map<number, number>()
  const deductions: Record<number, D> = {}
  const earnings = people.map((person) => {
    const record = new Float64Array(law.lastYear - law.firstYear + 1)
    for (const { year, amount } of person.earnings)
      if (year >= law.firstYear) record[year - law.firstYear]! += amount
    return record
  })
  let benefits = people.map(() => zero)
  let childBenefits = zero
  let heldBack = [zero, zero, zero]
  let onRecordOf = 0
  const survivorBack = people.map(() => ({ given: 0, waiting: 0 }))
  const monthsBack = people.map(() => 0)
  const claims = people.map((person, p) => born[p]! + person.claimAge.years * 12 + person.claimAge.months)
  let lastEarned = people.map(() => zero)
  const contributed = people.map(() => zero)
  let limits: ReturnType<typeof contributionLimits>[] = []
  let roomTraditional: D[] = []
  let roomRoth: D[] = []
  let wagesAhead: D[] = []
  let required = people.map(() => zero)
  /** By holding, and the income of it by person. */
  let inheritedDue = holdings.map(() => zero)
  let inheritedIncome = people.map(() => zero)
  let totals = newTotals(people.length)
  const out: PlainMonth[] = []

  const deductionOf = (p: number): Float64Array => {
    const one = farm.purchases[p]!
    if (one.assetClass === 'land') return Float64Array.of(0)
    if (one.assetClass === 'supplies') return Float64Array.of(1)
    // 26 USC 168(k): all of it for what is bought from January 20, 2025 on; no random plan buys earlier or a car.
    return deductionShares(
      one.assetClass,
      Number(one.month.slice(0, 4)),
      one.section179Share,
      one.bonus ? bonusShare(day(`${one.month}-01`), Number(one.month.slice(0, 4))) : 0,
    )
  }
  const electedIn: Record<number, D> = {}
  let carried179 = d(plan.tax.carried.section179)
  const deduct = (p: number, price: D, year: number) => {
    electedIn[year] = (electedIn[year] ?? zero).plus(price.times(d(farm.purchases[p]!.section179Share)))
    deductionOf(p).forEach((share, k) => {
      deductions[year + k] = (deductions[year + k] ?? zero).plus(price.times(d(share)))
    })
  }
  const writeOffStock = (herd: Plan['farm']['herds'][number], cost: D, year: number) => {
    if (cost.isZero()) return
    if (herd.kind !== 'layers' && herd.stockWriteOff === 'section179') {
      electedIn[year] = (electedIn[year] ?? zero).plus(cost)
      return
    }
    const assetClass = herd.kind === 'cattle' ? 'cattle' : herd.kind === 'pigs' ? 'hogs' : 'sheep-or-goats'
    // Before the first year with a table of its own the first table stands.
    deductionShares(assetClass, Math.max(year, firstRecoveryYear), 0, 0).forEach((share, k) => {
      deductions[year + k] = (deductions[year + k] ?? zero).plus(cost.times(d(share)))
    })
  }
  farm.purchases.forEach((one, p) => {
    if (one.timing === 'dated' && parseMonth(one.month)! < first) {
      bought.set(p, parseMonth(one.month)! - first)
      deduct(p, d(one.cost), Math.floor(parseMonth(one.month)! / 12))
    }
  })

  // Stock that a herd bought before the plan, at first prices: what of it is not written off yet.
  for (const herd of farm.herds) {
    const start = parseMonth(herd.start)!
    if (start >= first || herd.kind === 'layers' || herd.stockWriteOff === 'bonus') continue
    const { stockBought } = herdMonths(herd, start as Month, first - start, herdLimits(farm, herd.id))
    for (const [k, dollars] of stockBought.entries())
      writeOffStock(herd, d(dollars), Math.floor((start + k) / 12))
  }

  const within = (line: { from?: string | undefined; to?: string | undefined }, at: number) =>
    (line.from === undefined || at >= parseMonth(line.from)!) &&
    (line.to === undefined || at <= parseMonth(line.to)!)
  const part = 1 - (first % 12) / 12
  /** Growth beyond prices in January steps, the first year by the part of it that is in the plan. */
  const monthly = a.priceSteps === 'monthly'
  const beyond = (m: number, rate: number): D => {
    if (monthly) return power(d(1 + rate), d(m).div(12))
    const steps = Math.floor((first + m) / 12) - firstYear
    return steps === 0 || rate === 0 ? d(1) : power(d(1 + rate), d(steps - 1 + part))
  }
  /** The same for a line that begins at a month of its own: its first January counts the part of the year since then. */
  const grown = (m: number, from: string | undefined, rate: number): D => {
    const begun = from === undefined ? first : Math.max(first, parseMonth(from)!)
    if (monthly) return power(d(1 + rate), d(Math.max(0, first + m - begun)).div(12))
    const steps = Math.floor((first + m) / 12) - Math.floor(begun / 12)
    return steps <= 0 || rate === 0 ? d(1) : power(d(1 + rate), d(steps - (begun % 12) / 12))
  }
  const expectedLevelOf = once((year: number): D => {
    if (year === firstYear) return d(1)
    if (a.priceSteps === 'monthly')
      return power(d(1 + a.inflation), d((year - firstYear) * 12 - (first % 12)).div(12))
    return power(d(1 + a.inflation), d(year - firstYear - 1 + part))
  })
  /** Within a year prices step up each month where the plan says so. */
  const expectedAt = once((m: number): D => {
    const year = Math.floor((first + m) / 12)
    const since = Math.min(m, (first + m) % 12)
    return expectedLevelOf(year).times(
      a.priceSteps === 'monthly' ? power(d(1 + a.inflation), d(since).div(12)) : d(1),
    )
  })
  const at = (table: Float64Array, row: number, m: number): D => d(table[row * months + m] ?? 0)
  const rowsOf = (table: Float64Array, m: number): D => sum(course.rows.map((_, row) => at(table, row, m)))

  /** By how a line grows: what it costs and what the farm replaces of it, at first prices. */
  const livingReal = once((m: number) => {
    const sums = {
      inflation: { cost: zero, goods: zero },
      care: { cost: zero, goods: zero },
      fixed: { cost: zero, goods: zero },
    }
    for (const line of plan.household.living) {
      if (!within(line, first + m)) continue
      if (line.months.length > 0 && !line.months.includes(((first + m) % 12) + 1)) continue
      const amount = d(line.perMonth).times(grown(m, line.from, line.extraGrowth))
      const from = line.farmShareFrom === undefined ? 0 : parseMonth(line.farmShareFrom)!
      const into = sums[line.growth]
      into.cost = into.cost.plus(amount)
      if (first + m >= from) into.goods = into.goods.plus(amount.times(d(line.farmShare)))
    }
    return sums
  })
  /** Each loan paid down from its start, a month at a time, by the payment given or by equal ones; the last pays the rest. */
  const householdLoans = once((m: number): { paid: D; drawn: D } => {
    let paid = zero
    let drawn = zero
    for (const loan of plan.household.loans) {
      const begun = parseMonth(loan.start)! - first
      if (m === begun && loan.drawn) drawn = drawn.plus(d(loan.principal))
      const monthly = d(loan.yearlyRate).div(12)
      const count = loan.months ?? 1200
      const level =
        loan.paymentPerMonth !== undefined
          ? d(loan.paymentPerMonth)
          : monthly.eq(0)
            ? d(loan.principal).div(count)
            : d(loan.principal)
                .times(monthly)
                .div(d(1).minus(monthly.plus(1).pow(-count)))
      let owed = d(loan.principal)
      let interestLeft = zero
      for (let k = 1; k <= count && begun + k <= m; k += 1) {
        const interest = interestLeft.plus(owed.times(monthly))
        const now = k === count ? owed.plus(interest) : least(level, owed.plus(interest))
        interestLeft = interest.minus(least(now, interest))
        owed = owed.minus(now.minus(interest.minus(interestLeft)))
        if (begun + k === m) paid = paid.plus(now)
      }
    }
    return { paid, drawn }
  })
  /** Care of children paid in a month: by how each line grows, less what the farm replaces. */
  const careCostsOf = (m: number, level: D, careLevel: D, kept: D): D =>
    sum(
      plan.household.living
        .filter((line) => line.careOfChildren && within(line, first + m))
        .filter((line) => line.months.length === 0 || line.months.includes(((first + m) % 12) + 1))
        .map((line) => {
          const from = line.farmShareFrom === undefined ? 0 : parseMonth(line.farmShareFrom)!
          const own = first + m >= from ? d(1).minus(d(line.farmShare)) : d(1)
          const prices = line.growth === 'inflation' ? level : line.growth === 'care' ? careLevel : d(1)
          return d(line.perMonth)
            .times(grown(m, line.from, line.extraGrowth))
            .times(own)
            .times(prices)
            .times(kept)
        }),
    )
  const payOf = (p: number, m: number) =>
    plan.household.pay
      .filter((one) => one.person === people[p]!.id && one.kind === 'wages' && within(one, first + m))
      .filter((one) => one.months.length === 0 || one.months.includes(((first + m) % 12) + 1))
      .map((one) => ({
        gross: d(one.perMonth).times(grown(m, one.from, one.extraGrowth)),
        withheld: d(one.withheldShare),
      }))
  /** Dollars of the month at a price level. */
  /** One's own, and after a death the part of the other's that goes on; `now`: the month in which one looks. */
  const pensionsOf = (p: number, m: number, prices: D, now: number) =>
    plan.household.pay
      .filter((one) => one.kind !== 'wages' && within(one, first + m))
      .filter((one) => one.months.length === 0 || one.months.includes(((first + m) % 12) + 1))
      .map((one) => ({ one, owner: people.findIndex((person) => person.id === one.person) }))
      .filter(({ owner }) => owner === p || (people.length === 2 && !isAlive(owner, now)))
      .map(({ one, owner }) => {
        const gross = d(one.perMonth)
          .times(owner === p ? 1 : (one.survivorShare ?? 0))
          .times(grown(m, one.from, one.extraGrowth))
          .times(one.kind === 'pension' ? prices : d(1))
        return { gross, withheld: gross.times(d(one.withheldShare)) }
      })
  const sideOf = (p: number, m: number) =>
    plan.household.sideVentures
      .map((one, venture) => ({ one, venture }))
      .filter(
        ({ one }) => people.findIndex((person) => person.id === one.person) === p && within(one, first + m),
      )
      .map(({ one, venture }) => {
        const until = one.growsUntil === undefined ? months : parseMonth(one.growsUntil)! - first
        const fades = one.fadesFrom === undefined ? months : parseMonth(one.fadesFrom)! - first
        const begins = one.from === undefined ? 0 : Math.max(0, parseMonth(one.from)! - first)
        const grownBy = power(d(1 + one.growth), d(Math.max(0, Math.min(m, until, fades) - begins)).div(12))
        const faded = power(d(1 - one.fade), d(Math.max(0, m - fades)).div(12))
        const net = d(one.perMonth)
          .times(grownBy)
          .times(faded)
          .times(d(1 - one.costShare))
          .minus(d(one.costPerMonth))
        return { venture, net, aside: positive(net).times(d(one.setAsideShare)) }
      })
  /** What each venture holds, and what it is to keep: as much as it held, unless the plan says. */
  const heldBy = plan.household.sideVentures.map((one) => d(one.cash))
  const keptBy = plan.household.sideVentures.map((one) => positive(d(one.keeps ?? one.cash)))
  const premiumLines = (m: number, deductible: boolean): D =>
    sum(
      plan.health.premiums
        .filter((line) => line.deductible === deductible && within(line, first + m))
        .map((line) => d(line.perMonth)),
    )
  /** Programs look at a month: a first part of a year counts as a whole one, less what ended before it. */
  const toldBefore = (() => {
    const { farmProfit, farmGross, otherSelfEmployment, wages, otherIncome } = plan.tax.soFar
    const { propertyGain, ordinaryGain } = plan.tax.soFar
    const earned = farmProfit || farmGross || otherSelfEmployment || wages
    return Boolean(earned || otherIncome || propertyGain || ordinaryGain || plan.tax.soFar.healthPremiums)
  })()
  let endedBefore = 0
  /** Of what the return last worked deducts for premiums, what was paid before the plan; and such premiums of the marketplace. */
  let deductedBefore = 0
  let paidBeforePlan = 0
  /** 26 CFR 1.162(l)-1: of the marketplace's what the credit leaves is deducted, beside all others. */
  const deductedOf = (input: HouseholdYear, tax: HouseholdTax): number => {
    const premiums = d(input.premiumMonthly).times(input.coverMonths)
    const own = positive(premiums.minus(tax.premiumTaxCredit))
    if (own.lte(0)) return 0
    const share = own.div(own.plus(input.otherHealthPremiums)).times(paidBeforePlan).div(premiums)
    return share.times(tax.selfEmployedHealthDeduction).toNumber()
  }
  const wholeYear = (year: number): number => (year === firstYear ? 12 / (12 - (first % 12)) : 1)
  const askedFor = (year: number, income: number): number =>
    (income - (year === firstYear ? endedBefore - deductedBefore : 0)) * wholeYear(year)
  /** What programs ask of a year's household income, as its own return leaves it: of the months they look at, and of the year. */
  const askedOf = (year: number, income: number) => ({
    months: askedFor(year, income),
    year: year === firstYear ? income : askedFor(year, income),
  })
  /** What takes someone at such an income: 3 where no program does. `size`: those of the return. */
  const programAt = (
    who: Someone,
    k: number,
    year: number,
    region: number,
    size: number,
    asked: ReturnType<typeof askedOf>,
  ) => {
    const law = lawOf(year)
    const at = first + k
    const notYet = plan.household.dependents.filter((one) => {
      const born = parseMonth(one.born.slice(0, 7))!
      return born > at && Math.floor(born / 12) === Math.floor(at / 12)
    }).length
    const people = size - notYet
    const line = law.medicaidPovertyFirst[region]! + law.medicaidPovertyAdditional[region]! * (people - 1)
    const basicLine = plan.household.place.state === 'MN' ? povertyLineCents(law, region, people) / 100 : line
    return programOf(
      limitsOfPlan(plan, year),
      standingFor(who, k),
      (asked.months * 100) / line,
      (asked.year * 100) / line,
      (asked.year * 100) / basicLine,
    )
  }
  const ratedIn = ratingPlaceOf(plan)
  const isRelative = (who: { id: string }) =>
    plan.household.dependents.some((one) => one.id === who.id && one.relation === 'relative')
  const isDependent = (who: { id: string }) => plan.household.dependents.some((one) => one.id === who.id)
  const tiers = familyTiers.values[2018]![ratedIn]
  const everyone = [
    ...people.map((one) => ({ ...one, isChild: false, leaves: Number.POSITIVE_INFINITY })),
    ...plan.household.dependents.map((one) => ({
      ...one,
      isChild: one.relation === 'child',
      leaves: goneFrom(one),
    })),
  ]
  type Someone = (typeof everyone)[number]
  const birthOf = (who: Someone) => parseMonth(who.born.slice(0, 7))!
  /** What the plan lists for someone in a month: 3 the marketplace, 1 nothing, 0 no question. */
  const listedFor = (who: Someone, m: number): number => {
    const calendar = first + m
    if (calendar < birthOf(who) || calendar >= who.leaves) return 0
    const medicareFrom = birthOf(who) + 780 - (who.born.endsWith('-01') ? 1 : 0)
    if ((!isDependent(who) || isRelative(who)) && plan.health.medicareFrom65 && calendar >= medicareFrom)
      return 0
    if (plan.health.marketplace.members.some((one) => one.person === who.id && within(one, calendar)))
      return 3
    return plan.health.premiums.some((line) => (line.person ?? who.id) === who.id && within(line, calendar))
      ? 0
      : 1
  }
  /** What dependents put in of their own in a month, at first prices. */
  const othersAt = (k: number): D =>
    sum(
      plan.household.dependents
        .filter((one) => first + k >= parseMonth(one.born.slice(0, 7))! && first + k < goneFrom(one))
        .map((one) => d(one.ownMoney)),
    )
  const diesBy = (who: Someone, m: number) =>
    !isDependent(who) &&
    !isAlive(
      people.findIndex((one) => one.id === who.id),
      m,
    )
  const standingFor = (who: Someone, m: number) => {
    const aged = (one: Someone) => first + m - birthOf(one)
    // Of their own income, which is not the plan's (42 CFR 435.603(f)(2)(i)): as from 65 on, by no line.
    if (isRelative(who)) return standingOf(12 * 80, false, false)
    const isParent = everyone.some(
      (one) => one.isChild && aged(one) >= 0 && aged(one) < 19 * 12 && first + m < one.leaves,
    )
    return standingOf(aged(who), !who.isChild && isParent, false)
  }
  /** Who a program takes in a month, decided in January; and the family's factor of the rest of those on the marketplace. */
  let takenByProgram = (_who: Someone, _m: number): boolean => false
  const factorsOf = (m: number, now: number): D => {
    const on = everyone.filter(
      (who) => listedFor(who, m) === 3 && !diesBy(who, now) && !takenByProgram(who, m),
    )
    // As the policy is issued: in January, or in the month in which cover begins in the year.
    const ages = on.map((who) => {
      const january = first + m - ((first + m) % 12)
      const begun = plan.health.marketplace.members
        .filter((one) => one.person === who.id)
        .map((one) => (one.from === undefined ? january : Math.max(january, parseMonth(one.from)!)))
      const issued = Math.min(...begun.filter((at) => at < january + 12))
      return Math.max(0, Math.floor((issued - birthOf(who)) / 12))
    })
    const young = ages.filter((age, k) => on[k]!.isChild && age < (tiers ? 26 : 21))
    const others = ages.filter((age, k) => !on[k]!.isChild || age >= (tiers ? 26 : 21))
    const adults = sum(others.map(factorOf))
    if (tiers) return adults.plus(young.length > 0 ? childrenAdd(tiers, others.length) : zero)
    const counted = young.sort((x, y) => y - x).slice(0, 3)
    return adults.plus(sum(counted.map(factorOf)))
  }
  /** A family’s factor with children less that of its adults alone. */
  function childrenAdd(of: Readonly<Record<string, number>>, adults: number): D {
    if (adults === 0) return d(of.childOnly ?? 1)
    return adults === 1 ? d(of.oneAdultWithChildren!).minus(1) : d(of.twoAdultsWithChildren!).minus(2)
  }
  function factorOf(age: number): D {
    if (tiers) return d(1)
    return d(ageFactor(ratedIn, age, 2026)! / ageFactor(ratedIn, 21, 2026)!)
  }
  const isAlive = (p: number, m: number) => m < lastOf(p) - first + 1
  const livingPeople = (m: number) => people.flatMap((_, p) => (isAlive(p, m) ? [p] : []))
  const ownerAt = (holding: Holding, m: number): number =>
    holding.owner < 0 || isAlive(holding.owner, m) || people.length < 2 || !isAlive(1 - holding.owner, m)
      ? holding.owner
      : 1 - holding.owner
  const isRetirement = ({ kind }: Holding) => kind === 'traditional' || kind === 'roth'
  const isInherited = (holding: Holding) => isRetirement(holding) && holding.said.inherited !== undefined
  const atWork = (holding: Holding) =>
    isRetirement(holding) && holding.said.heldAs === 'workPlan' && !isInherited(holding)
  /** 26 USC 401(a)(9)(B), (H): the part that must come out of an inherited account in a year; 1 is all of it. */
  const inheritedPart = (holding: Holding, year: number, m: number): D => {
    const { said, owner } = holding
    const died = said.inheritedIn === undefined ? first - 1 : parseMonth(said.inheritedIn)!
    const [diedYear, heirBorn] = [Math.floor(died / 12), Math.floor(birthday[owner]! / 12)]
    const gone = isAlive(owner, m) ? null : Math.floor(lastOf(owner) / 12)
    if (year <= diedYear) return zero
    if (said.inherited === 'tenYears' && year - diedYear >= 10) return d(1)
    if (gone !== null && year - gone >= 10) return d(1)
    const table = singleLifeExpectancy.values[2022]!
    const at = (age: number) => d(Math.max(1, table[Math.min(120, Math.max(0, age))]!))
    const { inheritedFromBorn: ownerBorn } = said
    const starts = ownerBorn === undefined ? null : ownerBorn + startAge(ownerBorn)
    const begun = holding.kind === 'traditional' && (starts === null || died >= starts * 12 + 15)
    let asked = zero
    if (said.inherited === 'spouse') {
      if (begun || starts === null || year >= starts) asked = d(1).div(at(year - heirBorn))
    } else if (said.inherited === 'lifetime' || (begun && year >= 2025)) {
      const byHeir = at(diedYear + 1 - heirBorn).minus(year - diedYear - 1)
      const byOwner =
        begun && ownerBorn !== undefined ? at(diedYear - ownerBorn).minus(year - diedYear) : byHeir
      asked = d(1).div(most(d(1), most(byHeir, byOwner)))
    }
    return said.inheritedTaken === 'evenly' && said.inherited === 'tenYears'
      ? most(asked, d(1).div(10 - (year - diedYear) + 1))
      : asked
  }
  const startAge = (bornYear: number) =>
    bornYear >= 1960 ? 75 : bornYear >= 1951 ? 73 : bornYear >= 1949 ? 72 : 71
  /** Of the own business, by the profit and wages that the owner's return has; its tax by the usual method. */
  const ownRoom = (
    { said, owner }: Holding,
    input: HouseholdYear,
    slots: readonly number[],
    year: number,
  ): D => {
    const slot = slots.indexOf(owner)
    if (!isOwnPlan(said.heldAs) || slot < 0) return zero
    const yearLaw = lawOf(year)
    const profit = d(input.farmProfit[slot]!).plus(d(input.otherSelfEmployment[slot]!))
    const net = positive(profit).times(d(yearLaw.selfEmploymentFactor))
    const underBase = least(net, positive(d(yearLaw.wageBase).minus(d(input.wages[slot]!))))
    const half = underBase
      .times(d(yearLaw.selfEmploymentSocialSecurityRate))
      .plus(net.times(d(yearLaw.selfEmploymentMedicareRate)))
      .div(2)
    const { simple, deferral, deferralCatchUp, annualAdditions, compensationCap } = limits[owner]!
    if (said.heldAs === 'simple') return least(d(simple), net).plus(net.times(d(0.03)))
    const earned = positive(profit.minus(half))
    const employer = least(least(earned.div(5), d(compensationCap).div(4)), d(annualAdditions))
    if (said.heldAs === 'sep') return employer
    const usual = least(least(d(deferral), earned.minus(employer)), d(annualAdditions).minus(employer))
    return employer.plus(usual).plus(least(d(deferralCatchUp), earned.minus(employer).minus(usual)))
  }
  const half59 = (p: number) => birthday[p]! + 59 * 12 + 6
  /** 26 USC 72(t)(2)(A)(i), (iv), (v), (4): free at 59½, paid evenly, or left in or after the year of 55. */
  const isEarly = (holding: Holding, m: number): boolean => {
    const owner = ownerAt(holding, m)
    if (isInherited(holding)) return false
    if (owner < 0 || first + m >= half59(owner) || isPaidEvenly(holding, m)) return false
    const left = holding.said.leftWork
    if (!atWork(holding) || left === undefined || owner !== holding.owner) return true
    return Number(left.slice(0, 4)) - Math.floor(birthday[owner]! / 12) < 55 || first + m < parseMonth(left)!
  }
  const isPaidEvenly = ({ said, owner, kind }: Holding, m: number): boolean => {
    if (said.inherited !== undefined) return false
    if (said.evenPaymentsFrom === undefined || owner < 0 || kind !== 'traditional' || !isAlive(owner, m))
      return false
    const from = parseMonth(said.evenPaymentsFrom)!
    const ends = Math.max(from + 60, half59(owner))
    return from < half59(owner) && first + m >= from && first + m < ends
  }
  /** In a plan at work that the year's pay belongs to. */
  const isCovered = (p: number, year: number): boolean =>
    plan.savings.accounts.some(
      (account, place) =>
        isOwnPlan(account.heldAs) &&
        holdings[place]!.owner === p &&
        Array.from({ length: 12 }, (_, k) => year * 12 + k).some(
          (at) =>
            at >= first &&
            plan.savings.contributions.some(
              (one) => one.account === account.id && one.perMonth > 0 && within(one, at),
            ),
        ),
    ) ||
    holdings.some(
      (holding) =>
        atWork(holding) &&
        holding.owner === p &&
        Array.from({ length: 12 }, (_, k) => year * 12 + k).some(
          (month) =>
            (holding.said.leftWork === undefined || month <= parseMonth(holding.said.leftWork)!) &&
            plan.household.pay.some(
              (pay) => pay.person === people[p]!.id && pay.kind === 'wages' && within(pay, month),
            ),
        ),
    )
  /**
   * Accounts in the order in which a shortfall is met: each one by its own place, kinds with what is not named alone. The
   * contributions of Roth accounts may have a place of their own, before the rest of them.
   */
  const inOrder = (): [Holding, 'whole' | 'contributions' | 'rest'][] => {
    const words = [...new Set(plan.savings.spendOrder)]
    const ofContributions = words.indexOf('roth-contributions')
    return words.flatMap((word, at) =>
      holdings.flatMap((holding): [Holding, 'whole' | 'contributions' | 'rest'][] => {
        const { id } = holding.said
        if (word === 'roth-contributions') return holding.kind === 'roth' ? [[holding, 'contributions']] : []
        // An account whose short name is a kind's is one of its kind.
        const isNamed = words.includes(id) && !isKind(id)
        if (isKind(word) ? holding.kind !== word || isNamed : id !== word) return []
        const isRest = holding.kind === 'roth' && ofContributions >= 0 && at > ofContributions
        return [[holding, isRest ? 'rest' : 'whole']]
      }),
    )
  }
  const oneOffsOf = (m: number, prices: D): D =>
    sum(
      plan.household.oneOffs
        .filter((item) => parseMonth(item.month)! === first + m)
        .map((item) => d(item.cost).times(item.todaysPrices ? prices : d(1))),
    )
  const careReal = (m: number, living: readonly number[]): D => {
    const atHome = everyone.filter(
      (who) => isDependent(who) && first + m >= birthOf(who) && first + m < who.leaves,
    )
    return sum(
      living.map((p) => d(first + m < born[p]! + 780 ? plan.health.careBefore65 : plan.health.careFrom65)),
    ).plus(d(plan.health.careEachDependent).times(atHome.length))
  }
  /** Typed premiums are of first prices; of published ones each year has its own, the last for all later years. */
  const premiumAt21 = (known: ReturnType<typeof planPremiums>, year: number): D => {
    const one = known.findLast((each) => each.year === null || each.year <= year) ?? known[0]
    if (one === undefined) return zero
    if (one.year === null) return d(one.at21)
    // One published before the plan's first year has grown by the same January steps until then.
    const [from, to] = [Math.min(one.year, firstYear), Math.max(one.year, firstYear)]
    const steps = Array.from({ length: to - from }, (_, k) =>
      d(1 + (from + 1 + k > premiumsUntil ? a.inflation : a.premiumGrowth)),
    )
    const level = steps.reduce((product, step) => product.times(step), d(1))
    return one.year < firstYear ? d(one.at21).times(level) : d(one.at21).div(level)
  }
  const plannedStep = (m: number): D => {
    if (plan.draw.policy !== 'steps') return zero
    const begun = plan.draw.steps
      .filter((step) => parseMonth(step.from)! <= first + m)
      .sort((x, y) => parseMonth(x.from)! - parseMonth(y.from)!)
    const step = begun.at(-1)
    if (!step) return zero
    const raises = Math.floor((first + m) / 12) - Math.floor(parseMonth(step.from)! / 12)
    return d(step.perMonth).times(d(1 + plan.draw.growth).pow(raises))
  }

  const directCosts = once((m: number): D => rowsOf(course.directCosts, m).times(beyond(m, a.farmCostGrowth)))
  /** Markets and overheads. */
  const otherCosts = once(
    (m: number): D =>
      at(course.marketCosts, 0, m)
        .plus(at(course.overheads, 0, m))
        .times(beyond(m, a.farmCostGrowth)),
  )
  /** What is sold in an ordinary season when this share of the work is done. */
  const salesReal = (m: number, share: D): D =>
    sum(
      course.rows.map((_, row) => {
        const offered = at(course.offered, row, m).times(share)
        const ceiling = course.ceiling[row * months + m]!
        return Number.isFinite(ceiling) ? least(offered, d(ceiling)) : offered
      }),
    ).times(beyond(m, a.farmPriceGrowth))
  const hires = heldEachMonth(farm.hired.weeklyHours).some((hours) => hours > 0)
  /** Hours a month that each of the plan's people can give; without a crew everyone does an equal part of what there is. */
  const crewOf = (p: number, m: number): D => {
    if (farm.crew.length === 0)
      return at(course.hoursNeeded, 0, m)
        .minus(at(course.hiredByPlan, 0, m))
        .div(people.length)
    const place = farm.crew.findIndex((one) => one.who === people[p]!.id)
    return place < 0 ? zero : at(course.hoursAvailable, place, m)
  }
  const othersOf = (m: number): D =>
    farm.crew.length === 0
      ? people.length === 0
        ? at(course.hoursNeeded, 0, m).minus(at(course.hiredByPlan, 0, m))
        : zero
      : sum(
          farm.crew.map((one, place) =>
            people.some((person) => person.id === one.who) ? zero : at(course.hoursAvailable, place, m),
          ),
        )
  const hiredHours: D[] = []
  const paidHours: D[] = []
  const workedHours: D[] = []
  const undoneHours: D[] = []
  const doneShare: D[] = []
  /** Each month looks at those of the year after it: they stay until the work is shared anew, as it is after every purchase and death. */
  const profits = new Map<string, D>()
  /** Who works what from a month on, for those alive and what has been bought: the share done is a calendar year's, or what is left of it. */
  const shareWork = (from: number, alive: readonly number[], kept: D) => {
    profits.clear()
    for (let m = from; m < months; m += 1) {
      const hours = at(course.hoursNeeded, 0, m).times(kept)
      const given = at(course.hiredByPlan, 0, m).times(kept)
      const crew = sum(alive.map((p) => crewOf(p, m))).plus(othersOf(m))
      const saved = least(hours, savedHours(m))
      const beyondCrew = positive(hours.minus(given).minus(crew))
      const open = positive(beyondCrew.minus(saved))
      const kindly = positive(given.minus(positive(saved.minus(beyondCrew))))
      hiredHours[m] = hires ? kindly.plus(open) : kindly
      const season = d(heldEachMonth(farm.hired.weeklyHours)[(first + m) % 12]!).times(365.25 / 12 / 7)
      const promised = farm.hired.paid === 'all hours' ? season.times(kept) : zero
      paidHours[m] = promised.gt(hiredHours[m]!) ? promised : hiredHours[m]!
      undoneHours[m] = hires ? zero : open
      workedHours[m] = hours.minus(saved).minus(undoneHours[m]!)
    }
    for (let m = from; m < months; m += 1) {
      const year = Math.floor((first + m) / 12)
      const same = Array.from({ length: 12 }, (_, k) => year * 12 + k - first).filter(
        (k) => k >= from && k < months,
      )
      const undone = sum(same.map((k) => undoneHours[k]!))
      const all = sum(same.map((k) => workedHours[k]!)).plus(undone)
      doneShare[m] = undone.gt(0) ? d(1).minus(undone.div(all)) : d(1)
    }
  }
  const hiredReal = (m: number): D =>
    paidHours[m]!.times(d(farm.hired.hourlyCost)).times(beyond(m, a.farmCostGrowth))
  const stockReal = (m: number): D =>
    rowsOf(course.culls, m)
      .times(beyond(m, a.farmPriceGrowth))
      .plus(at(course.leaseIncome, 0, m))
      .plus(at(course.phaseSales, 0, m))
      .minus(rowsOf(course.stockBought, m).times(beyond(m, a.farmCostGrowth)))
  /** What purchases made so far bring in cash in a month, at first prices: from the month after they are made at the soonest. */
  const broughtIn = (m: number): D =>
    sum(
      [...bought].map(([p, since]) => {
        const item = farm.purchases[p]!
        const age = m - since - Math.max(1, item.worksAfterMonths)
        const works = age >= 0 && age < Math.round(item.usefulYears * 12)
        return works ? d(spreadOverYear(item.addsCash)[(first + m) % 12]!) : zero
      }),
    )
  const savedHours = (m: number): D =>
    sum(
      [...bought].map(([p, since]) => {
        const item = farm.purchases[p]!
        const age = m - since - Math.max(1, item.worksAfterMonths)
        const works = age >= 0 && age < Math.round(item.usefulYears * 12)
        return works ? d(spreadOverYear(item.savesHours)[(first + m) % 12]!) : zero
      }),
    )
  const worthBack = (m: number): D =>
    sum(
      [...bought].map(([p, since]) => {
        const item = farm.purchases[p]!
        const age = m - since - Math.max(1, item.worksAfterMonths)
        return age === Math.round(item.usefulYears * 12) ? d(item.valueAtEnd) : zero
      }),
    )
  const spreadOf = (m: number): { herd: Plan['farm']['herds'][number]; dollars: D }[] =>
    farm.herds.flatMap((herd, k) => {
      const cell = (farm.enterprises.length + k) * months + m
      const spread = herd.kind !== 'layers' && herd.stockWriteOff !== 'bonus'
      const dollars = spread ? d(course.stockBought[cell]!) : zero
      return dollars.gt(0) ? [{ herd, dollars: dollars.times(beyond(m, a.farmCostGrowth)) }] : []
    })
  /** Profit of a month as expected by those who live now, before loan interest and depreciation, at first prices. */
  const profitReal = (m: number, kept: D): D => {
    const key = `${m} ${kept}`
    const profit = profits.get(key) ?? workedProfit(m, kept)
    profits.set(key, profit)
    return profit
  }
  const workedProfit = (m: number, kept: D): D =>
    salesReal(m, doneShare[m]!)
      .plus(broughtIn(m))
      .minus(directCosts(m).times(doneShare[m]!))
      .minus(otherCosts(m))
      .minus(rowsOf(course.stockBought, m).times(beyond(m, a.farmCostGrowth)))
      .plus(sum(spreadOf(m).map((one) => one.dollars)))
      .times(kept)
      .minus(hiredReal(m))
  const expectedFlow = (now: number, m: number, kept: D): D => {
    const past = m >= months
    const k = past ? m - 12 : m
    const dated = farm.purchases.filter(
      (item) => item.timing === 'dated' && parseMonth(item.month)! - first === k && !past,
    )
    const stock = rowsOf(course.culls, k)
      .times(beyond(k, a.farmPriceGrowth))
      .plus(at(course.leaseIncome, 0, k))
      .plus(at(course.phaseSales, 0, k))
      .minus(sum(spreadOf(k).map((one) => one.dollars)))
    return profitReal(k, kept)
      .plus(stock.times(kept))
      .plus(worthBack(k))
      .minus(sum(dated.map((item) => d(item.cost))))
      .times(expectedAt(k))
      .times(level.div(expectedAt(now)))
      .plus(past ? zero : at(course.loanDrawn, 0, k))
      .minus(at(course.loanPayments, 0, k))
  }
  /** The least of a sum of cash and the expected flows after it, up to month `last`, draws of the plan taken out if asked. */
  const leastAhead = (cash: D, now: number, last: number, kept: D, draws: boolean): D => {
    const drawn = (k: number) => (draws ? expectedDraw(k < months ? k : k - 12) : zero)
    let running = cash.minus(drawn(now))
    let lowest = running
    for (let k = now + 1; k <= last; k += 1) {
      running = running.plus(expectedFlow(now, k, kept)).minus(drawn(k))
      lowest = least(lowest, running)
    }
    return lowest
  }
  const smoothAt = once((m: number) => {
    const end = Math.min(months, m + 12)
    const mean = { real: zero, care: zero, fixed: zero, loans: zero }
    for (let k = m; k < end; k += 1) {
      const one = livingReal(k)
      mean.real = mean.real.plus(one.inflation.cost.minus(one.inflation.goods).div(end - m))
      mean.care = mean.care.plus(one.care.cost.minus(one.care.goods).div(end - m))
      mean.fixed = mean.fixed.plus(one.fixed.cost.minus(one.fixed.goods).div(end - m))
      mean.loans = mean.loans.plus(householdLoans(k).paid.div(end - m))
    }
    return mean
  })
  const expectedDraw = once((m: number): D => {
    const expected = expectedLevelOf(Math.floor((first + m) / 12))
    if (plan.draw.policy === 'steps') return plannedStep(m).times(plan.draw.withPrices ? expected : d(1))
    if (plan.draw.policy !== 'ramp' || first + m < parseMonth(plan.draw.from)!) return zero
    const mean = smoothAt(m)
    const premiums = sum(plan.health.premiums.map((line) => d(line.perMonth)))
    return mean.real
      .plus(mean.care)
      .plus(premiums)
      .times(expected)
      .plus(mean.fixed)
      .plus(mean.loans)
      .times(rampAt(m))
  })
  const rampAt = (m: number): D => {
    if (plan.draw.policy !== 'ramp') return zero
    const from = parseMonth(plan.draw.from)!
    const to = parseMonth(plan.draw.to)!
    const along = to > from ? least(d(first + m - from).div(to - from), d(1)) : d(1)
    return d(plan.draw.fromShare).plus(d(plan.draw.toShare).minus(d(plan.draw.fromShare)).times(along))
  }
  const fill = (year: number, m: number) => {
    const input = emptyHouseholdYear()
    const january = Math.max(0, m - ((first + m) % 12))
    const there = people.flatMap((_, p) => (lastOf(p) - first + 1 > january ? [p] : []))
    const couple = there.length === 2
    const slots = people.length === 0 ? [] : couple ? [0, 1] : [there[0] ?? 0]
    for (const child of plan.household.dependents) {
      const age = year - Number(child.born.slice(0, 4))
      if (age < 0 || Math.floor(goneFrom(child) / 12) <= year) continue
      if (child.relation === 'relative') continue
      if (age < 17) input.childrenUnder17 += 1
      else input.otherDependents += 1
      input.dependentAges = [...input.dependentAges, age]
      if (age < (child.student ? 24 : 19)) input.earnedCreditChildren += 1
      if (age < 13) input.careChildren += 1
    }
    const hasChildren = input.childrenUnder17 + input.otherDependents > 0
    for (const one of plan.household.dependents) {
      if (one.relation === 'child' || Math.floor(goneFrom(one) / 12) <= year) continue
      input.otherDependents += 1
      input.dependentAges = [...input.dependentAges, year - Number(one.born.slice(0, 4))]
    }
    const withChildren = people.length > 1 && input.childrenUnder17 + input.otherDependents > 0
    const aloneWithChildren = people.length === 1 && input.childrenUnder17 + input.otherDependents > 0
    const bereaved = withChildren && there.length === 1 ? lastOf(1 - there[0]!) : null
    const aloneStatus =
      // 26 USC 2(a): a child in the household, and a spouse who died in one of the two years before.
      hasChildren && bereaved !== null && year - Math.floor(bereaved / 12) <= 2
        ? 4
        : plan.tax.filing === 'head' || withChildren || (plan.tax.filing === undefined && aloneWithChildren)
          ? 2
          : plan.tax.filing === 'joint' && people.length < 2
            ? 1
            : 0
    input.status = couple ? 1 : aloneStatus
    input.people = couple || input.status === 1 ? 2 : 1
    jointIn[year] = input.status === 1
    input.age[0] = slots[0] === undefined ? 40 : year - Math.floor(born[slots[0]]! / 12)
    input.age[1] = couple ? year - Math.floor(born[1]! / 12) : input.people === 2 ? 40 : 0
    const optional = plan.tax.optionalSelfEmployment ? 1 : 0
    input.farmOptional = [optional, optional]
    input.region = ['contiguous', 'alaska', 'hawaii'].indexOf(plan.tax.region)
    input.itemized = d(plan.tax.itemized).times(levelAtJanuary).toNumber()
    input.propertyTax = d(plan.household.place.propertyTax ?? 0)
      .times(levelAtJanuary)
      .toNumber()
    input.rent = d(plan.household.place.rent ?? 0)
      .times(levelAtJanuary)
      .toNumber()
    input.carried = { ...carried }
    if (byLaw && plan.tax.averageFarmIncome)
      input.averaging = { years: [bases[year - 1]!, bases[year - 2]!, bases[year - 3]!], elected: -1 }
    return { input, slots, couple }
  }
  /**
   * Into the household of a year what is converted in its December: amounts, or the most whole dollars with which it is at or under the
   * line, found by halving. `really` moves the money too.
   */
  const convert = (input: HouseholdYear, couple: boolean, now: number, really = false): D => {
    let all = zero
    const december = first + now + 11 - ((first + now) % 12)
    const year = Math.floor(december / 12)
    for (const one of plan.savings.conversions) {
      const from = holdings.find((holding) => holding.said.id === one.from)!
      const into = holdings.find((holding) => holding.said.id === one.into)!
      const m = december - first
      const owner = ownerAt(from, now)
      if (m >= months || owner < 0 || !isAlive(owner, now) || ownerAt(into, now) !== owner) continue
      if (isAlive(from.owner, now) && isPaidEvenly(from, Math.min(m, lastOf(from.owner) - first))) continue
      if (year < (one.fromYear ?? 0) || year > (one.toYear ?? 9999)) continue
      if (atWork(from) && (from.said.leftWork === undefined || parseMonth(from.said.leftWork)! > december))
        continue
      if (from.said.heldAs === 'solo401k' && december < half59(from.owner)) continue
      const held = positive(from.balance)
      const [before, beforeOfSecond] = [input.iraDistributions, input.secondIraDistributions]
      const set = (more: number) => {
        input.iraDistributions = before + more
        if (owner === 1 && couple) input.secondIraDistributions = beforeOfSecond + more
      }
      const isOver = (more: number): boolean => {
        set(more)
        const worked = emptyHouseholdTax()
        assessHousehold(lawOf(year), input, worked)
        if (one.upTo === 'poverty') {
          const size = input.people + input.childrenUnder17 + input.otherDependents
          const line =
            lawOf(year).povertyFirst[input.region]! +
            lawOf(year).povertyAdditional[input.region]! * (size - 1)
          return worked.householdIncome > (line * one.percent) / 100 + 1e-6
        }
        const place = lawOf(year).ordinaryRates.findIndex((rate) => rate > one.rate + 1e-6)
        if (place < 0) return false
        const ordinary = worked.taxableIncome - worked.preferredIncome
        return ordinary > lawOf(year).ordinaryStarts[input.status]![place]! + 1e-6
      }
      let amount = least(held, d(one.perYear).times(level))
      if (one.upTo !== 'amount') {
        let [low, high] = [0, held.floor().toNumber() + 1]
        if (isOver(0)) high = 0
        while (high - low > 1) {
          const middle = Math.floor((low + high) / 2)
          if (isOver(middle)) high = middle
          else low = middle
        }
        amount = d(low)
      }
      set(amount.toNumber())
      all = all.plus(amount)
      if (!really) continue
      from.balance = from.balance.minus(amount)
      into.balance = into.balance.plus(amount)
      rothBegins(into, year)
      into.converted.set(year, (into.converted.get(year) ?? zero).plus(amount))
      if (owner === 1) totals.retirementOfSecond = totals.retirementOfSecond.plus(amount)
    }
    return all
  }
  const shareOf = (p: number): D => {
    const whole = people.reduce((total, one) => total + one.farmWorkShare, 0)
    return whole > 0 ? d(people[p]!.farmWorkShare).div(d(whole)) : d(1).div(people.length)
  }
  const stateOf = (year: number) =>
    stateLaws(
      plan.tax.stateTax,
      plan.household.place.state,
      [{ year, level: expectedLevelOf(year).toNumber() }],
      steadyIndexing(plan.assumptions.inflation),
    )[0]!

  const partSaid = byLaw && stateOf(firstYear) !== null ? plan.tax.withheldForState : undefined
  const withheldOfState = (withheld: D, federal: D, ofState: D): D =>
    partSaid === undefined
      ? positive(least(withheld.minus(positive(federal)), ofState))
      : withheld.times(d(partSaid))

  let carried = { ...noCarryforwards(), ...plan.tax.carried, section179: 0 }
  let dueMay = d(plan.tax.lossRefundDue)
  // The returns a farming loss may go back to, by year: those before the plan by two of their lines.
  const filedReturns: Record<number, ReturnType<typeof emptyHouseholdYear>> = {}
  const before = plan.tax.lastYear
  const joint = plan.tax.filing !== 'head' && (people.length === 2 || plan.tax.filing === 'joint')
  for (const [year, income, taxable] of [
    [firstYear - 2, before.incomeTwoYearsBack, before.taxableIncomeTwoYearsBack],
    [firstYear - 1, before.adjustedGrossIncome, before.taxableIncome],
  ] as const) {
    if (year < 2024) continue
    filedReturns[year] = {
      ...emptyHouseholdYear(),
      status: joint ? 1 : plan.tax.filing === 'head' ? 2 : 0,
      people: joint ? 2 : 1,
      age: [40, 40],
      otherIncome: Math.max(income, taxable),
      itemized: Math.max(income, taxable) - taxable,
    }
  }
  // Schedule J: three base years, each with its law, as the returns since have left them.
  const bases: Record<number, BaseYear> = {}
  ;[before.taxableIncome, before.taxableIncomeTwoYearsBack, before.taxableIncomeThreeYearsBack].forEach(
    (taxable, k) => {
      const of = firstYear - 1 - k
      const status = joint ? 1 : plan.tax.filing === 'head' ? 2 : 0
      bases[of] = {
        law: of < 2023 ? null : rateLawFor(of, indexing),
        status,
        taxable,
        preferred: 0,
        ratio: 1,
      }
    },
  )
  let levelAtJanuary = d(1)
  let monthlyStep = d(1)
  for (let m = 0; m < months; m += 1) {
    const calendar = first + m
    const season = calendar % 12
    const year = Math.floor(calendar / 12)
    const alive = livingPeople(m)
    if (people.length > 0 && alive.length === 0) break
    const one = people.length === 2 && alive.length === 1
    const keptOnFarm = one ? d(plan.household.farmShareAfterDeath) : d(1)
    if (m === 0 || alive.length !== livingPeople(m - 1).length) shareWork(m, alive, keptOnFarm)
    if (m > 0 && monthly) {
      level = level.times(monthlyStep)
      careLevel = careLevel.times(power(d(1 + careRate(season === 0 ? year : year + 1)), d(1).div(12)))
    }

    // January.
    if (m === 0 || season === 0) {
      if (m > 0) {
        const grown = (rate: number) => power(d(1 + rate), d(year === firstYear + 1 ? part : 1))
        if (a.priceSteps === 'yearly') level = level.times(grown(a.inflation))
        if (!monthly) careLevel = careLevel.times(grown(careRate(year)))
        premiumLevel = premiumLevel.times(d(1 + (year > premiumsUntil ? a.inflation : a.premiumGrowth)))
        medicareLevel = medicareLevel.times(d(1 + (year > medicareUntil ? a.inflation : medicareRate)))
      }
      levelAtJanuary = level
      monthlyStep = a.priceSteps === 'monthly' ? power(d(1 + a.inflation), d(1).div(12)) : d(1)
      totals = newTotals(people.length)
      if (m === 0) totals.begin(plan)
      contributed.fill(zero)
      if (m === 0)
        for (const [p, { putInSoFar }] of people.entries())
          contributed[p] = d(putInSoFar.traditional).plus(d(putInSoFar.roth))
      required = people.map(() => zero)
      inheritedDue = holdings.map(() => zero)
      inheritedIncome = people.map(() => zero)
      if (season === 0)
        for (const [place, holding] of holdings.entries()) {
          const owner = ownerAt(holding, m)
          if (isInherited(holding) && owner >= 0) {
            const due = holding.balance.times(inheritedPart(holding, year, m))
            inheritedDue[place] = due
            if (holding.kind === 'traditional') inheritedIncome[owner] = inheritedIncome[owner]!.plus(due)
            continue
          }
          if (holding.kind !== 'traditional' || owner < 0 || !isAlive(owner, m)) continue
          const bornYear = Math.floor(birthday[owner]! / 12)
          const from = plan.savings.requiredDistributionsFrom
          if (from !== undefined && year - bornYear < from) continue
          const divisor = distributionDivisor(bornYear, year)
          if (Number.isFinite(divisor))
            required[owner] = required[owner]!.plus(holding.balance.div(d(divisor)))
        }
    }
    if (people.length > 0) {
      const paid = (): D[] => {
        const course = people.map((_, p) =>
          benefitPerson(
            { bornYear: Math.floor(born[p]! / 12), earnings: earnings[p]! },
            born[p]!,
            claims[p]!,
            lastOf(p) + 1,
          ),
        )
        course.forEach((person, p) => {
          person.survivorMonthsBack = survivorBack[p]!.given
          const isDead = calendar >= person.deathMonth
          setPrimaryAmounts(law, person, course[1 - p] ?? null, year, isDead)
        })
        const amounts = new Float64Array(4)
        const below = (limit: number) =>
          plan.household.dependents.filter((child) => {
            if (child.relation === 'relative') return false
            const age = calendar - birthMonthByLaw(child.born)
            return age >= 0 && age < Math.min(limit, child.untilAge) * 12
          }).length
        const children = { count: below(18), inCare: below(16) > 0 }
        householdBenefits(course[0]!, course[1] ?? null, children, calendar, amounts)
        onRecordOf = amounts[3]!
        return [amounts[0]!, amounts[1]!, amounts[2]!].map(d)
      }
      // Earnings of last year over the year's amount hold benefits back until full retirement age, and the months come back then.
      if (m === 0 || season === 0) {
        heldBack = [zero, zero, zero]
        const due = paid()
        people.forEach((_, p) => {
          const bornYear = Math.floor(born[p]! / 12)
          const full = born[p]! + fullRetirementAgeMonths(bornYear)
          if (due[p]!.eq(0) || !isAlive(p, m)) return
          if (year * 12 > full) {
            if (monthsBack[p]! > 0)
              claims[p] = Math.max(claims[p]!, Math.min(full, claims[p]! + monthsBack[p]!))
            survivorBack[p]!.given += survivorBack[p]!.waiting
            monthsBack[p] = 0
            survivorBack[p]!.waiting = 0
            return
          }
          const children = onRecordOf === p ? due[2]! : zero
          const yearly = due[p]!.plus(children).times(12).toNumber()
          const held = earningsTestWithheld(
            law,
            year,
            bornYear,
            (born[p]! % 12) + 1,
            lastEarned[p]!.toNumber(),
            yearly,
          )
          if (held <= 0) return
          const back = monthsGivenBack(held, yearly / 12)
          if (calendar >= claims[p]!) monthsBack[p] = monthsBack[p]! + back
          else if (calendar >= born[p]! + 720) survivorBack[p]!.waiting += back
          heldBack[p] = due[p]!.times(d(held)).div(d(yearly))
          heldBack[2] = heldBack[2]!.plus(children.times(d(held)).div(d(yearly)))
        })
      }
      const now = paid().map((due, part) => positive(due.minus(heldBack[part]!)))
      benefits = people.map((_, p) => now[p]!)
      childBenefits = now[2]!
    }
    if (m === 0 || season === 0) {
      const count = Math.min(12 - season, months - m)
      const monthsAhead = Array.from({ length: count }, (_, k) => m + k)
      const levelNow = level
      const sumAhead = (of: (k: number) => D) => sum(monthsAhead.map(of))
      const farmAhead = described
        ? sumAhead((k) => profitReal(k, keptOnFarm))
            .times(levelNow)
            .minus(sumAhead((k) => at(course.loanInterest, 0, k)))
            .minus(deductions[year] ?? zero)
        : sumAhead(plannedStep).times(plan.draw.policy === 'steps' && plan.draw.withPrices ? levelNow : d(1))
      const written = described
        ? least(positive(farmAhead), (electedIn[year] ?? zero).plus(carried179))
        : zero
      const profitAhead = farmAhead.minus(written)
      estimate = zero
      quarterly = zero
      aheadForState = zero
      estimateOfState = zero
      advanceIn = Array.from({ length: 12 }, () => zero)
      const limitOf = (p: number) =>
        contributionLimits(year, people[p] ? year - Number(people[p]!.born.slice(0, 4)) : 40, indexing)
      limits = [0, 1].map(limitOf)
      roomTraditional = limits.map((one) => d(one.ira))
      roomRoth = limits.map((one) => d(one.ira))
      wagesAhead = people.map((_, p) =>
        totals.wages[p]!.plus(sumAhead((k) => sum(payOf(p, k).map((x) => x.gross))).times(levelNow)),
      )
      takenByProgram = () => false
      {
        const { input, slots, couple } = fill(year, m)
        const profit = profitAhead.plus(totals.farmSales).minus(totals.farmDeductions)
        const gross = sumAhead((k) =>
          described ? salesReal(k, doneShare[k]!).plus(broughtIn(k)).times(keptOnFarm) : zero,
        )
          .times(levelNow)
          .plus(totals.farmSales)
        const places = couple ? [0, 1] : input.people === 2 ? [0, 1] : [0]
        places.forEach((slot) => {
          const p = slots[slot] ?? -1
          const portion = input.people === 1 || p < 0 ? d(1) : shareOf(p)
          input.farmProfit[slot] = profit.times(portion).toNumber()
          input.farmGross[slot] = gross.times(portion).toNumber()
          if (p < 0) return
          input.wages[slot] = sumAhead((k) => sum(payOf(p, k).map((x) => x.gross)))
            .times(levelNow)
            .plus(totals.wages[p]!)
            .toNumber()
          input.otherSelfEmployment[slot] = sumAhead((k) => sum(sideOf(p, k).map((x) => x.net)))
            .times(levelNow)
            .plus(totals.side[p]!)
            .toNumber()
          input.pensions[slot] = sumAhead((k) => sum(pensionsOf(p, k, levelNow, m).map((x) => x.gross)))
            .plus(totals.pensions[p]!)
            .toNumber()
        })
        input.otherSelfEmployment[0]! += sumAhead((k) => sum(sideOf(-1, k).map((x) => x.net)))
          .times(levelNow)
          .toNumber()
        earnedAhead = sum(
          places.map((slot) =>
            d(input.wages[slot]!).plus(
              positive(d(input.farmProfit[slot]!).plus(d(input.otherSelfEmployment[slot]!))),
            ),
          ),
        )
        let interest = totals.interest
        let dividends = zero
        holdings.forEach((holding, place) => {
          if (holding.kind !== 'cash' && holding.kind !== 'taxable') return
          interest = interest.plus(holding.balance.times(interestOf[place]!).times(count))
          dividends = dividends.plus(holding.balance.times(dividendOf[place]!).times(count))
        })
        input.interest = interest.toNumber()
        input.ordinaryDividends = dividends.toNumber()
        input.qualifiedDividends = dividends.toNumber()
        const requiredAll = sum(required).plus(sum(inheritedIncome))
        input.iraDistributions = requiredAll.toNumber()
        input.socialSecurity = sum(benefits).times(count).toNumber()
        const isSecond = (p: number) => p === 1 && couple
        let ofSecond = couple ? required[1]!.plus(inheritedIncome[1]!) : zero
        // Out of inherited accounts, which a state may leave untaxed.
        const inherited = [0, 1].map((slot) =>
          slots[slot] === undefined ? zero : (inheritedIncome[slots[slot]!] ?? zero),
        )
        input.secondSocialSecurity = couple ? benefits[1]!.times(count).toNumber() : 0
        input.otherHealthPremiums = totals.premiumsDeductible
          .plus(sumAhead((k) => premiumLines(k, true)).times(premiumLevel))
          .toNumber()
        const keptNow = alive.length === 1 && people.length === 2 ? d(plan.household.survivorShare) : d(1)
        input.careCosts = totals.careCosts
          .plus(sumAhead((k) => careCostsOf(k, level, careLevel, keptNow)))
          .toNumber()
        // What is expected to be taken from savings, in the plan's order of accounts.
        const oneOffsAhead = sumAhead((k) => oneOffsOf(k, level))
        const expectedDraws =
          plan.draw.policy === 'steps'
            ? sumAhead(plannedStep).times(plan.draw.withPrices ? level : d(1))
            : described
              ? positive(sumAhead((k) => profitReal(k, keptOnFarm)).times(level))
              : zero
        const firstNeed = () =>
          sumAhead((k) => {
            const mean = smoothAt(k)
            const lives = mean.real.times(level).plus(mean.care.times(careLevel)).plus(mean.fixed)
            const paid = premiumLines(k, true).plus(premiumLines(k, false)).times(premiumLevel)
            const earned = sum(
              alive.map((p) =>
                sum(payOf(p, k).map((x) => x.gross.minus(x.gross.times(x.withheld))))
                  .plus(sum(sideOf(p, k).map((x) => x.net)))
                  .times(level)
                  .plus(sum(pensionsOf(p, k, level, m).map((x) => x.gross.minus(x.withheld))))
                  .plus(benefits[p]!),
              ),
            )
            return lives
              .times(keptNow)
              .plus(paid)
              .plus(careReal(k, alive).times(careLevel))
              .plus(householdLoans(k).paid)
              .minus(householdLoans(k).drawn)
              .minus(earned)
              .minus(childBenefits)
              .minus(othersAt(k).times(level))
              .minus(sum(sideOf(-1, k).map((x) => x.net)).times(level))
          }).minus(expectedDraws)
        let toTake = (m < 12 ? firstNeed() : needReal.times(level).times(count).div(12))
          .plus(oneOffsAhead)
          .minus(requiredAll)
        // What is due in January and what one-offs ask for beyond the months' own need comes once in the year.
        const monthly = toTake.minus(oneOffsAhead)
        let steady = positive(least(toTake, monthly))
        let takenOnce = requiredAll
        let gainedOnce = zero
        let early: D = totals.early
        let gains = zero
        const paidEvenly = holdings.filter((one) => isPaidEvenly(one, m))
        const even = sum(paidEvenly.map((one) => one.evenMonthly)).times(count)
        for (const one of paidEvenly)
          if (isSecond(one.owner)) ofSecond = ofSecond.plus(one.evenMonthly.times(count))
        toTake = toTake.minus(even)
        let distributions = requiredAll.plus(even)
        for (const [holding, part] of inOrder()) {
          const retirement = holding.kind === 'traditional' || holding.kind === 'roth'
          const isYoung = retirement && isEarly(holding, m)
          if (isPaidEvenly(holding, m)) continue
          if (toTake.lte(0)) continue
          if (isYoung && part !== 'contributions' && !plan.savings.spendRetirementBeforeAge) continue
          const basis = part === 'rest' ? zero : holding.basis
          const there = {
            whole: holding.balance,
            contributions: least(holding.balance, holding.basis),
            rest: holding.balance.minus(holding.basis),
          }[part]
          const taken = least(toTake, positive(there))
          if (taken.lte(0)) continue
          toTake = toTake.minus(taken)
          const once = positive(taken.minus(steady)).div(taken)
          steady = positive(steady.minus(taken))
          if (holding.kind === 'taxable') {
            const gain = taken.minus(taken.times(holding.basis).div(holding.balance))
            gains = gains.plus(gain)
            gainedOnce = gainedOnce.plus(gain.times(once))
          }
          const income =
            holding.kind === 'traditional'
              ? taken
              : holding.kind === 'roth' && (isYoung || isRothNew(holding, year))
                ? positive(taken.minus(basis).minus(sum([...holding.converted.values()])))
                : zero
          distributions = distributions.plus(income)
          takenOnce = takenOnce.plus(income.times(once))
          if (isSecond(holding.owner)) ofSecond = ofSecond.plus(income)
          const slot = isSecond(holding.owner) ? 1 : 0
          if (isInherited(holding)) inherited[slot] = inherited[slot]!.plus(income)
          if (isYoung) early = early.plus(income)
          if (isYoung && holding.kind === 'roth')
            early = early.plus(youngOf(holding, positive(taken.minus(basis)), year))
        }
        // What plans of the own business will take, as far as the expected profit lets it.
        let intoOwn = zero
        plan.savings.accounts.forEach((account, place) => {
          const holding = holdings[place]!
          if (!isOwnPlan(account.heldAs)) return
          holding.ownRoom = isPaidEvenly(holding, m) ? zero : ownRoom(holding, input, slots, year)
          const wanted = sumAhead((k) =>
            sum(
              plan.savings.contributions
                .filter((one) => one.account === account.id && within(one, first + k))
                .map((one) => d(one.perMonth)),
            ),
          )
          intoOwn = intoOwn.plus(least(wanted.plus(totals.intoOwn[holding.owner]!), holding.ownRoom))
        })
        input.sep = intoOwn.toNumber()
        input.hsa = totals.health.toNumber()
        input.longTermGains = gains.toNumber()
        input.section1231 = totals.farm1231.toNumber()
        input.businessGains = totals.farmOther.toNumber()
        input.iraDistributions = distributions.toNumber()
        input.secondIraDistributions = ofSecond.toNumber()
        input.inheritedIra = inherited.map((one) => one.toNumber())
        input.earlyWithdrawalAmount = early.toNumber()
        // Who is covered by what: first as if no program took anyone, then as the income without marketplace premiums says.
        const tax = emptyHouseholdTax()
        input.state = stateOf(year)
        const lineOf = lawOf(year)
        const size = input.people + input.childrenUnder17 + input.otherDependents
        let coverSeen = totals.byMonth
        const assess = (withMarketplace: boolean): number => {
          const months = withMarketplace ? monthsAhead.filter((k) => factorsOf(k, m).gt(0)) : []
          const ahead = sum(months.map((k) => factorsOf(k, m))).times(premiumLevel)
          const count = withMarketplace ? months.length + totals.coverMonths : 0
          const monthly = (behind: D, at21: D) =>
            count > 0 ? behind.plus(ahead.times(at21)).div(count).toNumber() : 0
          input.coverMonths = count
          input.deductibleMonths = count
          const seen = totals.byMonth.slice()
          for (const k of months) {
            const priced = factorsOf(k, m).times(premiumLevel)
            seen[(first + k) % 12] = {
              premium: priced.times(premiumAt21(planPremiums(plan), year)),
              benchmark: priced.times(premiumAt21(benchmarkPremiums(plan), year)),
            }
          }
          coverSeen = withMarketplace ? seen : totals.byMonth
          input.coverByMonth = count > 0 ? unlike(seen) : null
          input.advanceMonthly = count > 0 ? totals.advance.div(count).toNumber() : 0
          input.premiumMonthly = monthly(totals.marketplace, premiumAt21(planPremiums(plan), year))
          input.benchmarkMonthly = monthly(totals.benchmark, premiumAt21(benchmarkPremiums(plan), year))
          assessHousehold(lawOf(year), input, tax)
          paidBeforePlan = m === 0 && count > 0 ? plan.tax.soFar.marketplacePremiums : 0
          deductedBefore = deductedOf(input, tax)
          return tax.householdIncome
        }
        type Asked = ReturnType<typeof askedOf>
        const takenAt = (forAdults: Asked, forChildren: Asked) => (who: Someone, k: number) =>
          programAt(who, k, year, input.region, size, who.isChild ? forChildren : forAdults) !== 3
        const left = () =>
          everyone.reduce(
            (n, who) =>
              n + monthsAhead.filter((k) => listedFor(who, k) === 3 && !takenByProgram(who, k)).length,
            0,
          )
        const cover = () => {
          takenByProgram = () => false
          const all0 = left()
          const comesOnce = takenOnce.plus(gainedOnce).gt(0)
          if (year === firstYear && m === 0 && (toldBefore || comesOnce) && wholeYear(year) > 1) {
            // Without anybody's cover, whose premiums are a month's own.
            assess(false)
            // Pay, interest and what is taken out go by the months ahead, a business that earned before them by its year.
            const scale = wholeYear(year)
            const before = plan.tax.soFar
            const byMonths = { ...input }
            const times = (amounts: number[]) => amounts.map((one) => one * scale)
            const paidBefore = slots.map((p) => (p === 0 ? before.wages : 0))
            byMonths.wages = times(input.wages.map((one, slot) => one - (paidBefore[slot] ?? 0)))
            byMonths.pensions = times(input.pensions)
            byMonths.otherSelfEmployment = input.otherSelfEmployment.map((one) =>
              before.otherSelfEmployment !== 0 ? one : one * scale,
            )
            if (!before.farmProfit && !before.farmGross) byMonths.farmProfit = times(input.farmProfit)
            byMonths.interest = (input.interest - before.otherIncome) * scale
            byMonths.ordinaryDividends *= scale
            byMonths.qualifiedDividends *= scale
            byMonths.longTermGains =
              (input.longTermGains - gainedOnce.toNumber()) * scale + gainedOnce.toNumber()
            byMonths.socialSecurity *= scale
            byMonths.otherHealthPremiums = (input.otherHealthPremiums - before.healthPremiums) * scale
            byMonths.section1231 = 0
            byMonths.businessGains = 0
            byMonths.iraDistributions =
              (input.iraDistributions - takenOnce.toNumber()) * scale + takenOnce.toNumber()
            const worked = emptyHouseholdTax()
            assessHousehold(lawOf(year), byMonths, worked)
            endedBefore = tax.householdIncome - worked.householdIncome / scale
          }
          input.otherIncome = 0
          let percent = assess(true)
          // More income leaves more premiums to deduct: to be at that year's income takes several looks, each a cent at the least.
          const goal = incomeBeyondReal.times(level)
          let other = zero
          while (incomeBeyondReal.gt(0) && goal.minus(d(percent)).gt(0.005)) {
            other = other.plus(most(d(0.01), goal.minus(d(percent))))
            input.otherIncome = other.toNumber()
            percent = assess(true)
          }
          const asked = askedOf(year, percent)
          takenByProgram = takenAt(asked, asked)
          if (left() !== all0) {
            const bare = askedOf(year, assess(false))
            takenByProgram = takenAt(bare, bare)
            const remaining = left()
            if (remaining > 0 || totals.coverMonths > 0) {
              const forChildren = askedOf(year, assess(true))
              takenByProgram = takenAt(bare, forChildren)
              if (left() !== remaining) assess(true)
            }
          }
        }
        cover()
        const converting = convert(input, couple, m)
        takenOnce = takenOnce.plus(converting)
        if (converting.gt(0)) cover()
        const stillAhead = input.coverMonths - totals.coverMonths
        const takesAdvance = stillAhead > 0 && plan.health.marketplace.advanceCredit
        const coveredAhead = monthsAhead.filter((k) => factorsOf(k, m).gt(0)).map((k) => (first + k) % 12)
        let toComeInAll = zero
        if (takesAdvance && m === 0 && totals.coverMonths > 0) {
          // A year under way goes on by the own part that its months behind were paid with.
          const nothingLeft = totals.advance.gt(totals.marketplace.minus('0.005'))
          const own = nothingLeft ? zero : totals.benchmark.minus(totals.advance).div(totals.coverMonths)
          const factorIn = new Map(monthsAhead.map((k) => [(first + k) % 12, factorsOf(k, m)]))
          for (const at of coveredAhead) {
            const priced = factorIn.get(at)!.times(premiumLevel)
            const premium = priced.times(premiumAt21(planPremiums(plan), year))
            const benchmark = priced.times(premiumAt21(benchmarkPremiums(plan), year))
            advanceIn[at] = positive(least(premium, benchmark.minus(own)))
            toComeInAll = toComeInAll.plus(advanceIn[at]!)
          }
        } else if (takesAdvance) {
          // Each month by the credit it brings: the lesser of its premium and of its benchmark less a twelfth of the household's own part.
          toComeInAll = positive(d(tax.premiumTaxCredit).minus(totals.advance))
          const line = povertyLineCents(
            lineOf,
            input.region,
            input.people + input.childrenUnder17 + input.otherDependents,
          )
          const own = d(yearlyContribution(lineOf, Math.round(tax.householdIncome * 100), line)).div(1200)
          const weights = coveredAhead.map((at) =>
            input.coverByMonth === null
              ? d(1)
              : least(coverSeen[at]!.premium, positive(coverSeen[at]!.benchmark.minus(own))),
          )
          const all = sum(weights)
          coveredAhead.forEach((at, n) => {
            advanceIn[at] = all.gt(0) ? toComeInAll.times(weights[n]!).div(all) : zero
          })
        }
        if (byLaw) estimate = d(tax.balanceDue).plus(toComeInAll)
        if (byLaw) estimateOfState = d(tax.stateIncomeTax)
        if (byLaw) {
          const ahead = Math.max(0, tax.adjustedGrossIncome)
          const covers = [0, 1].map((p) => p < people.length && isCovered(p, year))
          roomTraditional = limits.map((one, p) =>
            d(
              deductibleIra(
                lawOf(year),
                input.status,
                one.ira,
                ahead,
                covers[p]!,
                alive.includes(1 - p) && covers[1 - p]!,
              ),
            ),
          )
          roomRoth = limits.map((one) => d(rothAllowed(lawOf(year), input.status, one.ira, ahead)))
        }
        // What went in before the first month and is not deducted.
        if (m === 0)
          for (const [p, { putInSoFar }] of people.entries()) {
            const beyond = positive(d(putInSoFar.traditional).minus(roomTraditional[p]!))
            totals.toTraditional = totals.toTraditional.minus(beyond)
            totals.toRoth = totals.toRoth.plus(beyond)
          }
        const farmGross = d(input.farmGross[0]!).plus(d(input.farmGross[1]!))
        const all = farmGross
          .plus(d(input.wages[0]!))
          .plus(d(input.wages[1]!))
          .plus(d(input.pensions[0]!))
          .plus(d(input.pensions[1]!))
          .plus(positive(d(input.otherSelfEmployment[0]!)))
          .plus(positive(d(input.otherSelfEmployment[1]!)))
          .plus(interest)
          .plus(dividends)
          .plus(distributions)
          .plus(converting)
          .plus(d(input.socialSecurity))
        const expects = all.gt(0) && farmGross.gte(all.times(2).div(3))
        if (byLaw && !wasFarmer && !expects) {
          const known = year > firstYear || plan.tax.lastYear.tax > 0
          const safe = lastTax.times(lastIncome.gt(150_000) ? d(1.1) : d(1))
          const withheld = sum(
            people.map((_, p) => sumAhead((k) => sum(payOf(p, k).map((x) => x.gross.times(x.withheld))))),
          )
            .times(levelNow)
            .plus(
              sum(
                people.map((_, p) =>
                  sumAhead((k) => sum(pensionsOf(p, k, levelNow, m).map((x) => x.withheld))),
                ),
              ),
            )
          const needed = known ? least(estimate.times(d(0.9)), safe) : estimate.times(d(0.9))
          // The state's by the federal bounds; withheld in one sum: the part said of it, else what the federal tax leaves.
          const restWithheld = withheldOfState(withheld, estimate, estimateOfState)
          // Before the plan's first month withheld and paid ahead; what is left goes by the dates still to come.
          const before = m === 0 ? plan.tax.soFar : { paid: 0, withheld: 0, statePaid: 0 }
          const paidBefore = d(before.paid).minus(d(before.withheld))
          const forFederal = withheld.minus(restWithheld).plus(d(before.withheld))
          const datesLeft = [3, 5, 8].filter((one) => one >= season).length + 1
          if (estimate.minus(forFederal).gte(1000))
            quarterly = positive(positive(needed.minus(forFederal)).minus(paidBefore)).div(datesLeft)
          const knownOfState = year > firstYear || plan.tax.lastYear.stateTax > 0
          const safeOfState = lastOfState.times(lastIncome.gt(150_000) ? d(1.1) : d(1))
          const neededByState = knownOfState
            ? least(estimateOfState.times(d(0.9)), safeOfState)
            : estimateOfState.times(d(0.9))
          const forState = restWithheld.plus(d(before.statePaid))
          const sharesLeft = sum(
            Array.from({ length: 12 }, (_, k) => (k === 0 || k >= season ? stateShareIn(k) : zero)),
          )
          if (estimateOfState.minus(forState).gte(1000) && sharesLeft.gt(0))
            aheadForState = positive(neededByState.minus(forState)).div(sharesLeft)
        }
      }
      if (!byLaw) {
        const work = sum(
          people.map((_, p) =>
            sumAhead((k) => sum([...payOf(p, k).map((x) => x.gross), ...sideOf(p, k).map((x) => x.net)])),
          ),
        )
        const nobody = sumAhead((k) => sum(sideOf(-1, k).map((x) => x.net)))
        earnedAhead = positive(profitAhead.plus(work.plus(nobody).times(levelNow)))
        if (plan.tax.method === 'share') estimate = d(plan.tax.share).times(earnedAhead)
      }
    }

    const earn = (): void =>
      holdings.forEach((holding, place) => {
        const before = holding.balance
        holding.balance = before.times(growth[place]!)
        if (holding.kind === 'traditional' || holding.kind === 'roth') return
        const interest = before.times(interestOf[place]!)
        const dividends = before.times(dividendOf[place]!)
        totals.interest = totals.interest.plus(interest)
        totals.dividends = totals.dividends.plus(dividends)
        if (holding.kind === 'taxable') holding.basis = holding.basis.plus(interest).plus(dividends)
      })
    if (a.timing === 'end') earn()

    // What the household must pay.
    const kept = one ? d(plan.household.survivorShare) : d(1)
    const lines = livingReal(m)
    const grownSum = (of: 'cost' | 'goods') =>
      lines.inflation[of].times(level).plus(lines.care[of].times(careLevel)).plus(lines.fixed[of]).times(kept)
    const whole = grownSum('cost')
    const goods = grownSum('goods')
    totals.careCosts = totals.careCosts.plus(careCostsOf(m, level, careLevel, kept))
    const living = whole.minus(goods)
    let deductible = premiumLines(m, true).times(premiumLevel)
    for (const p of alive) {
      if (!plan.health.medicareFrom65 || calendar < born[p]! + 780) continue
      const back =
        year >= firstYear + 2
          ? medicareIncomes[year - 2]!
          : year === firstYear + 1
            ? d(plan.tax.lastYear.adjustedGrossIncome)
            : d(plan.tax.lastYear.incomeTwoYearsBack)
      const jointBack =
        jointIn[year - 2] ??
        (plan.tax.filing !== 'head' && (people.length === 2 || plan.tax.filing === 'joint'))
      const medicare = medicareOf(year)
      const partD =
        plan.health.medicare.partDPlan === undefined
          ? medicare.basePartD
          : medicareLevel.times(d(plan.health.medicare.partDPlan)).toNumber()
      deductible = deductible
        .plus(d(medicarePremiumMonthly(medicare, back.toNumber(), jointBack ? 1 : 0, partD)))
        .plus(d(plan.health.medicare.supplement).times(medicareLevel))
    }
    let premiums = deductible.plus(premiumLines(m, false).times(premiumLevel))
    totals.premiumsDeductible = totals.premiumsDeductible.plus(deductible)
    const factors = factorsOf(m, m)
    if (factors.gt(0)) {
      const full = factors.times(premiumAt21(planPremiums(plan), year)).times(premiumLevel)
      const advance = least(advanceIn[season]!, full)
      premiums = premiums.plus(full).minus(advance)
      totals.marketplace = totals.marketplace.plus(full)
      totals.benchmark = totals.benchmark.plus(
        factors.times(premiumAt21(benchmarkPremiums(plan), year)).times(premiumLevel),
      )
      totals.advance = totals.advance.plus(advance)
      totals.byMonth[season] = {
        premium: full,
        benchmark: factors.times(premiumAt21(benchmarkPremiums(plan), year)).times(premiumLevel),
      }
      totals.coverMonths += 1
    }
    const care = careReal(m, alive).times(careLevel)
    let taxes = zero
    if (season === 0) {
      taxes = dueJanuary
      dueJanuary = zero
    }
    if (season === 3) {
      taxes = dueApril
      dueApril = zero
    }
    if (season === 4) {
      taxes = taxes.minus(dueMay)
      dueMay = zero
    }
    if ([3, 5, 8].includes(season)) {
      taxes = taxes.plus(quarterly)
      totals.paidAhead = totals.paidAhead.plus(quarterly)
    }
    const loans = householdLoans(m)
    // The state's: January and its return settle last year, payments ahead go by its own months.
    let stateTaxes = zero
    if (season === 0) {
      stateTaxes = stateDueJanuary
      stateDueJanuary = zero
    } else {
      const ahead = aheadForState.times(stateShareIn(season))
      stateTaxes = ahead
      totals.paidToState = totals.paidToState.plus(ahead)
    }
    if (season === stateReturnSeason) {
      stateTaxes = stateTaxes.plus(stateDueLater)
      stateDueLater = zero
    }
    taxes = taxes.plus(stateTaxes)
    const costs = living.plus(loans.paid).plus(premiums).plus(care).plus(taxes)
    const mean = smoothAt(m)
    const monthlyCosts = mean.real
      .times(level)
      .plus(mean.care.times(careLevel))
      .plus(mean.fixed)
      .times(kept)
      .plus(mean.loans)
      .plus(premiums)
      .plus(care)
    const { floor: planned } = plan.household
    const floor =
      planned.kind === 'dollars' ? d(planned.dollars).times(level) : d(planned.months).times(monthlyCosts)

    // The farm.
    let draw = zero
    let unmetDraw = zero
    let contribution = zero
    let spare = zero
    let farmSales = zero
    let farmCosts = zero
    if (!described) {
      farmCash = zero
      draw = plannedFor(m)
      farmSales = draw
      totals.farmSales = totals.farmSales.plus(draw)
    } else {
      const prices = level.times(keptOnFarm)
      const sales = salesReal(m, doneShare[m]!).times(prices)
      const spent = directCosts(m)
        .times(doneShare[m]!)
        .plus(otherCosts(m))
        .times(prices)
        .plus(hiredReal(m).times(level))
      farmSales = sales
      farmCosts = spent
      const stock = stockReal(m).times(prices)
      const loans = at(course.loanDrawn, 0, m).minus(at(course.loanPayments, 0, m))
      totals.farmSales = totals.farmSales.plus(sales)
      totals.farmDeductions = totals.farmDeductions
        .plus(spent)
        .plus(at(course.loanInterest, 0, m))
        .plus(rowsOf(course.stockBought, m).times(beyond(m, a.farmCostGrowth)).times(prices))
        .minus(sum(spreadOf(m).map((one) => one.dollars)).times(prices))
      for (const { herd, dollars } of spreadOf(m)) writeOffStock(herd, dollars.times(prices), year)
      totals.farmOther = totals.farmOther.plus(
        rowsOf(course.cullGainOrdinary, m)
          .times(beyond(m, a.farmPriceGrowth))
          .plus(at(course.leaseIncome, 0, m))
          .plus(at(course.phaseSales, 0, m))
          .minus(at(course.phaseSalesBasis, 0, m))
          .times(prices),
      )
      totals.farm1231 = totals.farm1231.plus(
        rowsOf(course.cullGain1231, m).times(beyond(m, a.farmPriceGrowth)).times(prices),
      )
      const cashIn = broughtIn(m).times(prices)
      const worth = worthBack(m).times(level)
      const gains = cashIn.plus(worth)
      totals.farmSales = totals.farmSales.plus(cashIn)
      totals.farmOther = totals.farmOther.plus(worth)
      const net = sales.minus(spent).plus(stock).plus(loans).plus(gains)
      netFarm.push(net)
      farmCash = farmCash.plus(net)
      const reserve = d(farm.reserve).times(level)
      const buy = (p: number) => {
        const price = d(farm.purchases[p]!.cost).times(level)
        bought.set(p, m)
        farmCash = farmCash.minus(price)
        deduct(p, price, year)
        shareWork(m + 1, alive, keptOnFarm)
      }
      farm.purchases.forEach((item, p) => {
        if (item.timing === 'dated' && parseMonth(item.month)! - first === m) buy(p)
      })
      farm.purchases.forEach((item, p) => {
        if (item.timing === 'dated' || bought.has(p) || m < parseMonth(item.month)! - first) return
        const after = farmCash.minus(d(item.cost).times(level))
        if (leastAhead(after, m, m + 12, keptOnFarm, true).gte(reserve)) buy(p)
      })
      if (farmCash.lt(0)) {
        contribution = farmCash.negated()
        farmCash = zero
      }
      spare = positive(leastAhead(farmCash, m, m + 11, keptOnFarm, false).minus(reserve))
      const wanted = plannedFor(m, costs)
      draw = least(wanted, spare)
      spare = spare.minus(draw)
      unmetDraw = wanted.minus(draw)
      farmCash = farmCash.minus(draw)
    }

    function plannedFor(at: number, householdCosts: D = costs): D {
      const policy = plan.draw
      if (policy.policy === 'steps') return plannedStep(at).times(policy.withPrices ? level : d(1))
      if (first + at < parseMonth(policy.from)!) return zero
      if (policy.policy === 'ramp') return positive(householdCosts).times(rampAt(at))
      if (policy.policy === 'share')
        return positive(sum(netFarm.slice(-12)))
          .div(12)
          .times(d(policy.share))
      return least(positive(householdCosts), spare)
    }

    const othersBenefits = othersAt(m).times(level)
    // Income meets outgo.
    let income = draw
      .plus(sum(alive.map((p) => benefits[p]!)))
      .plus(childBenefits)
      .plus(othersBenefits)
    totals.benefits = totals.benefits.plus(sum(alive.map((p) => benefits[p]!)))
    if (alive.includes(1)) totals.benefitsOfSecond = totals.benefitsOfSecond.plus(benefits[1]!)
    const nobody = sum(sideOf(-1, m).map((x) => x.net)).times(level)
    totals.sideNobody = totals.sideNobody.plus(nobody)
    income = income.plus(nobody)
    const yearLaw = byLaw ? lawOf(year) : null
    for (const p of alive) {
      for (const pay of payOf(p, m).length > 0 ? [payOf(p, m)] : []) {
        const gross = sum(pay.map((x) => x.gross)).times(level)
        const withheld = sum(pay.map((x) => x.gross.times(x.withheld))).times(level)
        const covered = yearLaw ? positive(least(gross, d(yearLaw.wageBase).minus(totals.wages[p]!))) : zero
        const payroll = yearLaw
          ? covered
              .times(d(yearLaw.selfEmploymentSocialSecurityRate).div(2))
              .plus(gross.times(d(yearLaw.selfEmploymentMedicareRate).div(2)))
          : zero
        totals.wages[p] = totals.wages[p]!.plus(gross)
        totals.withheld = totals.withheld.plus(withheld)
        income = income.plus(gross).minus(withheld).minus(payroll)
      }
      for (const pension of pensionsOf(p, m, level, m)) {
        totals.pensions[p] = totals.pensions[p]!.plus(pension.gross)
        totals.withheld = totals.withheld.plus(pension.withheld)
        income = income.plus(pension.gross).minus(pension.withheld)
      }
      const own = sum(sideOf(p, m).map((x) => x.net)).times(level)
      totals.side[p] = totals.side[p]!.plus(own)
      income = income.plus(own)
    }
    plan.household.sideVentures.forEach((one, v) => {
      const who = people.findIndex((person) => person.id === one.person)
      const isGone = who >= 0 && !alive.includes(who)
      const earned = isGone ? zero : (sideOf(who, m).find((x) => x.venture === v)?.net ?? zero).times(level)
      const isOver = isGone || (one.to !== undefined && first + m > parseMonth(one.to)!)
      const holds = least(positive(heldBy[v]!.plus(earned)), isOver ? zero : keptBy[v]!.times(level))
      income = income.minus(holds.minus(heldBy[v]!))
      heldBy[v] = holds
    })
    takenFromRetirement.push(zero)
    if (season === 3) {
      people.forEach((person, p) => {
        const place = plan.savings.accounts.findIndex(
          (one) =>
            one.kind === 'traditional' &&
            one.inherited === undefined &&
            (one.owner === person.id || (one.owner === undefined && p === 0)),
        )
        if (place >= 0) holdings[place]!.balance = holdings[place]!.balance.plus(matchDue[p]!)
      })
      matchDue = people.map(() => zero)
    }
    const countDistribution = (holding: Holding, amount: D) => {
      totals.retirement = totals.retirement.plus(amount)
      const who = ownerAt(holding, m)
      if (isInherited(holding) && who >= 0) totals.inherited[who] = totals.inherited[who]!.plus(amount)
      if (who === 1) totals.retirementOfSecond = totals.retirementOfSecond.plus(amount)
    }
    const withdraw = (holding: Holding, wanted: D): D => {
      const taken = least(wanted, holding.balance)
      if (taken.lte(0)) return zero
      if (holding.kind === 'taxable') {
        const out = taken.times(holding.basis).div(holding.balance)
        holding.basis = holding.basis.minus(out)
        totals.gains = totals.gains.plus(taken).minus(out)
      } else if (holding.kind === 'traditional') {
        countDistribution(holding, taken)
        if (isEarly(holding, m)) totals.early = totals.early.plus(taken)
      } else if (holding.kind === 'roth') {
        const free = least(taken, holding.basis)
        holding.basis = holding.basis.minus(free)
        let beyond = taken.minus(free)
        for (const [since, there] of [...holding.converted].sort(([a], [b]) => a - b)) {
          const part = least(beyond, there)
          holding.converted.set(since, there.minus(part))
          beyond = beyond.minus(part)
          // 26 USC 408A(d)(3)(F): the year of the conversion and the four after it.
          if (isEarly(holding, m) && year <= since + 4) totals.early = totals.early.plus(part)
        }
        if (beyond.gt(0) && (isEarly(holding, m) || isRothNew(holding, year))) {
          countDistribution(holding, beyond)
          if (isEarly(holding, m)) totals.early = totals.early.plus(beyond)
        }
      }
      holding.balance = holding.balance.minus(taken)
      if (holding.kind === 'traditional' || holding.kind === 'roth')
        takenFromRetirement[m] = takenFromRetirement[m]!.plus(taken)
      return taken
    }
    const cash = holdings[cashPlace]!
    if (season === 0)
      people.forEach((_, p) => {
        let left = required[p]!
        for (const holding of holdings) {
          if (holding.kind !== 'traditional' || holding.owner < 0 || ownerAt(holding, m) !== p) continue
          if (isInherited(holding)) continue
          const taken = withdraw(holding, left)
          const into = requiredPlace < 0 ? cash : holdings[requiredPlace]!
          into.balance = into.balance.plus(taken)
          if (into.kind === 'taxable') into.basis = into.basis.plus(taken)
          left = left.minus(taken)
        }
      })
    if (season === 0)
      holdings.forEach((holding, place) => {
        const taken = withdraw(holding, inheritedDue[place]!)
        const into = requiredPlace < 0 ? cash : holdings[requiredPlace]!
        into.balance = into.balance.plus(taken)
        if (into.kind === 'taxable') into.basis = into.basis.plus(taken)
      })
    for (const holding of holdings) {
      if (!isPaidEvenly(holding, m)) {
        holding.evenMonthly = zero
        continue
      }
      const { said, owner } = holding
      const byLife = said.evenPaymentsBy === 'lifeExpectancy'
      const begins = m === Math.max(0, parseMonth(said.evenPaymentsFrom!)! - first)
      if (begins || (season === 0 && byLife)) {
        const years = d(singleLifeExpectancy.values[2022]![year - Math.floor(birthday[owner]! / 12)]!)
        const yearly = d(said.evenPaymentsRate)
        const amortization = yearly.isZero()
          ? holding.balance.div(years)
          : holding.balance.times(yearly).div(d(1).minus(yearly.plus(1).pow(years.negated())))
        const kept =
          said.evenPaymentsBy === 'annuity' ? holding.balance.div(said.evenPaymentsFactor!) : amortization
        const given = said.evenPaymentsAmount ?? 0
        const payment = byLife ? holding.balance.div(years) : given > 0 ? d(given) : kept
        holding.evenMonthly = payment.div(12)
      }
      cash.balance = cash.balance.plus(withdraw(holding, holding.evenMonthly))
    }
    const oneOffs = oneOffsOf(m, level)
    const callOnFarm = (wanted: D): D => {
      const paid = plan.savings.drawsToHoldFloor ? positive(least(wanted, spare)) : zero
      spare = spare.minus(paid)
      farmCash = farmCash.minus(paid)
      draw = draw.plus(paid)
      return paid
    }
    const own = income.plus(loans.drawn).minus(costs).minus(oneOffs).minus(contribution)
    const net = own.plus(callOnFarm(floor.minus(spendableAt(season + 1)).minus(own)))
    totals.need = totals.need.minus(net).minus(oneOffs)
    let unmetNeed = zero
    if (net.lt(0)) {
      let left = net.negated()
      for (const [holding, part] of inOrder()) {
        const retirement = holding.kind === 'traditional' || holding.kind === 'roth'
        if (left.lte(0) || isPaidEvenly(holding, m)) continue
        if (part === 'contributions') {
          left = left.minus(withdraw(holding, least(left, positive(holding.basis))))
          continue
        }
        if (retirement && !plan.savings.spendRetirementBeforeAge && isEarly(holding, m)) continue
        left = left.minus(withdraw(holding, left))
      }
      unmetNeed = left.minus(callOnFarm(left))
    } else cash.balance = cash.balance.plus(net)
    const moveAside = (place: number, person: number, wanted: D): D => {
      const holding = holdings[place]!
      const retirement = holding.kind === 'traditional' || holding.kind === 'roth'
      const ofKind = holding.kind === 'traditional' ? roomTraditional : roomRoth
      const { deferral, deferralCatchUp } = limits[person]!
      const room = !retirement
        ? wanted
        : holding.evenMonthly.gt(0) || isInherited(holding)
          ? zero
          : isOwnPlan(holding.said.heldAs)
            ? holding.ownRoom.minus(totals.intoOwn[person]!)
            : atWork(holding)
              ? least(d(deferral).plus(deferralCatchUp), wagesAhead[person]!).minus(totals.deferred[person]!)
              : least(ofKind[person]!.minus(contributed[person] ?? zero), earnedAhead.minus(sum(contributed)))
      const moved = least(least(wanted, room), cash.balance)
      if (moved.lte(0) || place === cashPlace) return zero
      cash.balance = cash.balance.minus(moved)
      holding.balance = holding.balance.plus(moved)
      rothBegins(holding, year)
      if (holding.kind !== 'traditional' && holding.kind !== 'cash') holding.basis = holding.basis.plus(moved)
      if (atWork(holding)) {
        totals.deferred[person] = totals.deferred[person]!.plus(moved)
        if (holding.kind === 'traditional') totals.untaxed[person] = totals.untaxed[person]!.plus(moved)
      } else if (isOwnPlan(holding.said.heldAs)) {
        totals.intoOwn[person] = totals.intoOwn[person]!.plus(moved)
      } else if (retirement) {
        contributed[person] = contributed[person]!.plus(moved)
        if (holding.kind === 'traditional') totals.toTraditional = totals.toTraditional.plus(moved)
        else totals.toRoth = totals.toRoth.plus(moved)
      }
      return moved
    }
    let aside = zero
    plan.savings.contributions.forEach((line) => {
      const place = plan.savings.accounts.findIndex((account) => account.id === line.account)
      if (within(line, calendar))
        aside = aside.plus(moveAside(place, Math.max(0, holdings[place]!.owner), d(line.perMonth)))
    })
    for (const p of alive) {
      const wanted = sum(sideOf(p, m).map((x) => x.aside)).times(level)
      if (retirementPlace[p]! >= 0 && wanted.gt(0))
        aside = aside.plus(moveAside(retirementPlace[p]!, p, wanted))
    }
    if (net.gt(0)) {
      const held = sum(
        holdings.filter((holding) => holding.kind === 'cash').map((holding) => holding.balance),
      )
      let over = least(net.minus(aside), held.minus(d(plan.savings.reserveMonths).times(monthlyCosts)))
      if (over.gt(0)) {
        const wanted = over.times(d(plan.savings.surplusToRetirement))
        let moved = zero
        for (const p of alive)
          if (retirementPlace[p]! >= 0 && moved.lt(wanted))
            moved = moved.plus(moveAside(retirementPlace[p]!, p, wanted.minus(moved)))
        over = over.minus(moved)
        if (taxablePlace >= 0) {
          const rest = least(over, cash.balance)
          cash.balance = cash.balance.minus(rest)
          holdings[taxablePlace]!.balance = holdings[taxablePlace]!.balance.plus(rest)
          holdings[taxablePlace]!.basis = holdings[taxablePlace]!.basis.plus(rest)
        }
      }
    }
    if (a.timing === 'start') earn()

    function owedAt(monthsGone: number): D {
      const share = monthsGone === 0 ? zero : estimate.plus(estimateOfState).times(monthsGone).div(12)
      const accrued =
        monthsGone === 0
          ? zero
          : share.minus(totals.withheld).minus(totals.paidAhead).minus(totals.paidToState)
      return positive(dueJanuary.plus(dueApril).plus(stateDueJanuary).plus(stateDueLater).plus(accrued))
    }
    /** Cash and taxable accounts less tax owed, and retirement accounts after what taking them out would cost, where they count. */
    function spendableAt(monthsGone: number): D {
      const rate = plan.tax.method === 'none' ? zero : most(d(0.1), averageRate)
      const worths = holdings.map((holding) => {
        if (holding.kind === 'cash' || holding.kind === 'taxable') return holding.balance
        if (!plan.savings.retirementIsSpendable) return zero
        if (isPaidEvenly(holding, m)) return zero
        const early = byLaw && isEarly(holding, m)
        if (early && !plan.savings.spendRetirementBeforeAge) return zero
        const gain = positive(
          holding.balance.minus(holding.basis).minus(sum([...holding.converted.values()])),
        )
        const isTaxed = early || (byLaw && isRothNew(holding, year))
        const taxed = holding.kind === 'traditional' ? holding.balance : isTaxed ? gain : zero
        const young = youngOf(holding, positive(holding.balance.minus(holding.basis)), year)
        return holding.balance.minus(taxed.times(rate)).minus(early ? taxed.plus(young).times(d(0.1)) : zero)
      })
      return sum(worths).minus(owedAt(monthsGone))
    }

    // December.
    if (season === 11) {
      const sides = sum(totals.side).plus(totals.sideNobody)
      const wages = sum(totals.wages)
      // 26 USC 179(b)(3): no more at once than businesses and wages brought, the rest in later years.
      const farmBefore = totals.farmSales.minus(totals.farmDeductions).minus(deductions[year] ?? zero)
      const active = farmBefore.plus(sides).plus(wages).plus(totals.farm1231).plus(totals.farmOther)
      const wanted179 = (electedIn[year] ?? zero).plus(carried179)
      const taken179 = least(wanted179, positive(active))
      carried179 = wanted179.minus(taken179)
      const profit = farmBefore.minus(taken179)
      let tax = zero
      let taxOfState = zero
      let income = profit.plus(sides).plus(wages)
      const earned = people.map((_, p) => totals.wages[p]!)
      {
        const { input, slots, couple } = fill(year, m)
        const places = couple ? [0, 1] : [0]
        places.forEach((slot) => {
          const p = slots[slot] ?? -1
          const portion = couple ? shareOf(p) : d(1)
          input.farmProfit[slot] = profit.times(portion).toNumber()
          input.farmGross[slot] = totals.farmSales.times(portion).toNumber()
          input.wages[slot] = (
            p >= 0 ? totals.wages[p]!.minus(totals.untaxed[p]!) : totals.wagesBefore
          ).toNumber()
          input.pensions[slot] = p >= 0 ? totals.pensions[p]!.toNumber() : 0
          const own = p >= 0 ? totals.side[p]! : totals.sideBefore
          input.otherSelfEmployment[slot] = own.plus(slot === 0 ? totals.sideNobody : zero).toNumber()
        })
        input.interest = totals.interest.toNumber()
        input.ordinaryDividends = totals.dividends.toNumber()
        input.qualifiedDividends = totals.dividends.toNumber()
        input.longTermGains = totals.gains.toNumber()
        input.section1231 = totals.farm1231.toNumber()
        input.iraDistributions = totals.retirement.toNumber()
        input.socialSecurity = totals.benefits.toNumber()
        input.secondIraDistributions = couple ? totals.retirementOfSecond.toNumber() : 0
        input.inheritedIra = [0, 1].map((slot) =>
          slots[slot] === undefined ? 0 : (totals.inherited[slots[slot]!]?.toNumber() ?? 0),
        )
        input.secondSocialSecurity = couple ? totals.benefitsOfSecond.toNumber() : 0
        input.businessGains = totals.farmOther.toNumber()
        input.earlyWithdrawalAmount = totals.early.toNumber()
        input.hsa = totals.health.toNumber()
        input.traditionalIra = totals.toTraditional.toNumber()
        input.rothIra = totals.toRoth.toNumber()
        input.sep = sum(
          people.map((_, p) =>
            least(
              totals.intoOwn[p]!,
              holdings
                .filter((one) => one.owner === p)
                .reduce((best, one) => most(best, ownRoom(one, input, slots, year)), zero),
            ),
          ),
        ).toNumber()
        const count = totals.coverMonths
        input.coverMonths = count
        input.deductibleMonths = count
        input.coverByMonth = count > 0 ? unlike(totals.byMonth) : null
        input.premiumMonthly = count > 0 ? totals.marketplace.div(count).toNumber() : 0
        input.benchmarkMonthly = count > 0 ? totals.benchmark.div(count).toNumber() : 0
        input.advanceMonthly = count > 0 ? totals.advance.div(count).toNumber() : 0
        input.otherHealthPremiums = totals.premiumsDeductible.toNumber()
        input.careCosts = totals.careCosts.toNumber()
        const assessed = emptyHouseholdTax()
        input.state = stateOf(year)
        totals.retirement = totals.retirement.plus(convert(input, couple, m, true))
        assessHousehold(lawOf(year), input, assessed)
        const ofPlainShare = income
        income = d(assessed.adjustedGrossIncome)
        medicareIncomes[year] = d(assessed.medicareIncome)
        // A program that took someone beyond its line: the next January begins with this income.
        const size = input.people + input.childrenUnder17 + input.otherDependents
        const monthsGone = Array.from({ length: Math.min(12, m + 1) }, (_, k) => m - k)
        deductedBefore = year === firstYear ? deductedOf(input, assessed) : 0
        const beyond = everyone.some((who) =>
          monthsGone.some(
            (k) =>
              [1, 3].includes(listedFor(who, k)) &&
              !diesBy(who, k) &&
              takenByProgram(who, k) &&
              programAt(who, k, year, input.region, size, askedOf(year, assessed.householdIncome)) === 3,
          ),
        )
        incomeBeyondReal = beyond ? d(askedFor(year, assessed.householdIncome)).div(level) : zero
        needReal = totals.need.times(12).div(monthsGone.length).div(level)
        if (byLaw) {
          tax = d(assessed.balanceDue)
          taxOfState = d(assessed.stateIncomeTax)
          // 26 USC 172, 199A(c)(2), 1212(b): what the year could not use goes on, a farming loss within it.
          let { farmLoss, netOperatingLoss } = assessed.carried
          if (plan.tax.farmLosses === 'back') {
            // 26 USC 172(b)(1)(B): first the earlier of the two years before, each up to what it can use.
            for (const earlier of [year - 2, year - 1]) {
              const filed = filedReturns[earlier]
              if (!filed || farmLoss <= 0) continue
              const withLoss = (loss: number) => {
                const worked = emptyHouseholdTax()
                assessHousehold(
                  lawOf(earlier),
                  { ...filed, carried: { ...filed.carried, farmLoss: loss } },
                  worked,
                )
                return worked
              }
              const [was, now] = [
                withLoss(filed.carried.farmLoss),
                withLoss(filed.carried.farmLoss + farmLoss),
              ]
              const used = now.netOperatingLossDeduction - was.netOperatingLossDeduction
              filed.carried = { ...filed.carried, farmLoss: filed.carried.farmLoss + used }
              dueMay = dueMay.plus(Math.max(0, was.balanceDue - now.balanceDue))
              farmLoss -= used
              netOperatingLoss = Math.max(0, netOperatingLoss - used)
            }
            filedReturns[year] = { ...input, averaging: null }
          }
          const { averagedFarmIncome, adjustedGrossIncome, deduction, qbiDeduction, preferredIncome } =
            assessed
          for (const back of [1, 2, 3]) bases[year - back]!.taxable += averagedFarmIncome / 3
          const taxableOfYear =
            Math.max(0, adjustedGrossIncome) - deduction - qbiDeduction - averagedFarmIncome
          bases[year] = {
            law: lawOf(year),
            status: input.status,
            taxable: taxableOfYear,
            preferred: preferredIncome,
            ratio: 1,
          }
          carried = { ...assessed.carried, netOperatingLoss, farmLoss: 0 }
          averageRate =
            assessed.taxableIncome > 0
              ? least(d(0.5), d(assessed.incomeTax).div(d(assessed.taxableIncome)))
              : zero
          // 26 USC 6433(b): half of up to $2,000, less a point for each fiftieth of the income range, whole points only.
          const { saversMatchRate, saversMatchCap, saversMatchRange } = lawOf(year)
          const taken = sum(takenFromRetirement.slice(-36))
          matchDue = people.map((_, p) => {
            if (saversMatchRate === 0) return zero
            const [from, to] = saversMatchRange[input.status]!.map(d) as [D, D]
            const saved = contributed[p]!.plus(totals.deferred[p]!)
            const counted = least(positive(saved.minus(taken)), d(saversMatchCap))
            const points = d(saversMatchRate).times(100)
            const lost = positive(income.minus(from)).times(points).div(to.minus(from)).floor()
            return counted.times(positive(points.minus(lost))).div(100)
          })
          slots.forEach((p, slot) => {
            earned[p] = earned[p]!.plus(d(assessed.netSelfEmploymentEarnings[slot]!))
          })
        } else {
          if (plan.tax.method === 'share') tax = d(plan.tax.share).times(positive(ofPlainShare))
          tax = tax
            .plus(d(assessed.excessAdvance))
            .minus(positive(d(assessed.premiumTaxCredit).minus(totals.advance)))
          averageRate = plan.tax.method === 'share' ? d(plan.tax.share) : zero
          people.forEach((_, p) => {
            const portion = people.length === 1 ? d(1) : shareOf(p)
            earned[p] = earned[p]!.plus(
              positive(profit.times(portion).plus(totals.side[p]!)).times(d(0.9235)),
            )
          })
        }
      }
      lastEarned = earned.map(positive)
      people.forEach((_, p) => {
        if (earned[p]!.lte(0)) return
        earnings[p]![year - law.firstYear]! += earned[p]!.toNumber()
      })
      const withheldMore = withheldOfState(totals.withheld, tax, taxOfState)
      const left = tax.minus(totals.withheld.minus(withheldMore)).minus(totals.paidAhead)
      const leftOfState = taxOfState.minus(withheldMore).minus(totals.paidToState)
      const farmIncome = totals.farmSales.plus(positive(totals.farm1231.plus(totals.farmOther)))
      const all = farmIncome
        .plus(positive(sides))
        .plus(wages)
        .plus(sum(totals.pensions))
        .plus(totals.interest)
        .plus(totals.dividends)
        .plus(positive(totals.gains))
        .plus(totals.retirement)
        .plus(totals.benefits)
      const farmer = all.gt(0) && farmIncome.gte(all.times(2).div(3).minus(d(1e-9)))
      if (plan.tax.method === 'share' || (left.gt(0) && (farmer || wasFarmer))) dueJanuary = left
      else {
        dueJanuary = quarterly
        dueApril = left.minus(quarterly)
      }
      stateDueJanuary =
        leftOfState.gt(0) && (farmer || wasFarmer) && stateShareIn(0).gt(0)
          ? leftOfState
          : aheadForState.times(stateShareIn(0))
      stateDueLater = leftOfState.minus(stateDueJanuary)
      lastOfState = positive(taxOfState)
      estimateOfState = taxOfState
      wasFarmer = farmer
      lastTax = positive(tax)
      lastIncome = income
      estimate = tax
    }
    // What markets and the year's tax took from savings below the floor, the farm makes good.
    const monthsGone = season === 11 ? 0 : season + 1
    cash.balance = cash.balance.plus(callOnFarm(floor.minus(spendableAt(monthsGone))))
    const heldIn = (kind: Holding['kind']) =>
      sum(holdings.filter((holding) => holding.kind === kind).map((holding) => holding.balance))
    out.push({
      month: monthText(calendar as Month),
      draw,
      contribution,
      unmetDraw,
      farmCash: described ? farmCash : zero,
      ventureCash: sum(heldBy),
      living,
      premiums,
      care,
      taxes,
      stateTaxes,
      socialSecurity: sum(alive.map((p) => benefits[p]!))
        .plus(childBenefits)
        .plus(othersBenefits),
      othersBenefits: childBenefits.plus(othersBenefits),
      cash: heldIn('cash'),
      taxable: heldIn('taxable'),
      traditional: heldIn('traditional'),
      roth: heldIn('roth'),
      taxOwed: owedAt(monthsGone),
      spendable: spendableAt(monthsGone),
      farmGoods: goods,
      farmHours: described ? workedHours[m]! : zero,
      hiredHours: described ? hiredHours[m]! : zero,
      farmSales,
      farmCosts,
      unmetNeed,
      floor,
    })
  }
  return out
}

/** Of dollars beyond the contributions, the oldest conversions first: those of this year and the four before it. */
const youngOf = (holding: Holding, beyond: D, year: number): D => {
  let left = beyond
  let young = zero
  for (const [since, there] of [...holding.converted].sort(([a], [b]) => a - b)) {
    const part = least(left, there)
    left = left.minus(part)
    if (year <= since + 4) young = young.plus(part)
  }
  return young
}

/** The twelve months before the plan: given, or what the farm would have taken in and paid, at first prices. */
const netBefore = (plan: Plan, farm: Plan['farm'], first: number): D[] => {
  const given = plan.draw.policy === 'share' ? plan.draw.netBefore : undefined
  if (given) return Array.from({ length: 12 }, (_, k) => d(spreadOverYear(given)[(first + k) % 12]!))
  const course = farmCourse(farm, (first - 12) as Month, 12)
  const rows = (table: Float64Array, k: number) => sum(course.rows.map((_, row) => d(table[row * 12 + k]!)))
  return Array.from({ length: 12 }, (_, k) =>
    sum([
      rows(course.sales, k),
      rows(course.culls, k),
      d(course.leaseIncome[k]!),
      d(course.phaseSales[k]!),
      d(course.loanDrawn[k]!),
      rows(course.directCosts, k).times(d(course.work.share[k]!)).negated(),
      rows(course.stockBought, k).negated(),
      d(course.marketCosts[k]!).negated(),
      d(course.overheads[k]!).negated(),
      d(course.hiredCosts[k]!).negated(),
      d(course.loanPayments[k]!).negated(),
    ]),
  )
}

const newTotals = (people: number) => ({
  farmSales: zero,
  farmDeductions: zero,
  farmOther: zero,
  farm1231: zero,
  side: Array.from({ length: people }, () => zero),
  sideNobody: zero,
  sideBefore: zero,
  wages: Array.from({ length: people }, () => zero),
  pensions: Array.from({ length: people }, () => zero),
  wagesBefore: zero,
  interest: zero,
  dividends: zero,
  gains: zero,
  retirement: zero,
  /** What of retirement income and benefits is the second person's own: states tell them apart by age. */
  retirementOfSecond: zero,
  /** By person, of retirement income: out of inherited accounts. */
  inherited: Array.from({ length: people }, () => zero),
  benefitsOfSecond: zero,
  early: zero,
  benefits: zero,
  premiumsDeductible: zero,
  careCosts: zero,
  marketplace: zero,
  benchmark: zero,
  advance: zero,
  coverMonths: 0,
  byMonth: Array.from({ length: 12 }, () => ({ premium: zero, benchmark: zero })),
  need: zero,
  toTraditional: zero,
  health: zero,
  intoOwn: Array.from({ length: Math.max(1, people) }, () => zero),
  toRoth: zero,
  /** Put into plans at work by person, and the untaxed part of it. */
  deferred: Array.from({ length: Math.max(1, people) }, () => zero),
  untaxed: Array.from({ length: Math.max(1, people) }, () => zero),
  withheld: zero,
  paidAhead: zero,
  paidToState: zero,
  /** The plan's first year starts with what happened before its first month. */
  begin(plan: Plan) {
    const before = plan.tax.soFar
    this.farmSales = d(before.farmGross)
    this.farmDeductions = d(before.farmGross).minus(d(before.farmProfit))
    if (people > 0) {
      this.side[0] = d(before.otherSelfEmployment)
      this.wages[0] = d(before.wages)
    }
    this.interest = d(before.otherIncome)
    this.farm1231 = d(before.propertyGain)
    this.farmOther = d(before.ordinaryGain)
    for (const [p, { putInSoFar }] of plan.household.people.entries()) {
      this.toTraditional = this.toTraditional.plus(d(putInSoFar.traditional))
      this.toRoth = this.toRoth.plus(d(putInSoFar.roth))
      this.health = this.health.plus(d(putInSoFar.health))
      this.intoOwn[p] = d(putInSoFar.ownPlan)
    }
    this.early = d(before.earlyWithdrawals)
    this.premiumsDeductible = d(before.healthPremiums)
    this.marketplace = d(before.marketplacePremiums)
    this.benchmark = d(before.marketplaceBenchmark)
    this.advance = d(before.advanceCredit)
    this.coverMonths = before.marketplaceMonths
    const season = Number(plan.startMonth.slice(5, 7)) - 1
    for (let k = Math.max(0, season - this.coverMonths); k < season; k += 1)
      this.byMonth[k] = {
        premium: this.marketplace.div(this.coverMonths),
        benchmark: this.benchmark.div(this.coverMonths),
      }
    this.paidAhead = d(before.paid)
    this.paidToState = d(before.statePaid)
  },
})

const isKind = (word: string): boolean => ['cash', 'taxable', 'traditional', 'roth'].includes(word)

const twelfth = d(1).div(12)

const earningOf = (plan: Plan, place: number): D => {
  const { mix } = plan.savings.accounts[place]!
  return d(mix.bonds)
    .times(d(plan.assumptions.bonds))
    .plus(d(mix.bills).times(d(plan.assumptions.bills)))
}

const monthlyGrowth = (plan: Plan, place: number): D => {
  const account = plan.savings.accounts[place]!
  const gross = d(1)
    .plus(d(account.mix.stocks).times(d(plan.assumptions.stocks)))
    .plus(earningOf(plan, place))
  return power(positive(gross).times(d(1).minus(d(account.fee))), twelfth)
}

const monthlyInterest = (plan: Plan, place: number): D => {
  const earning = earningOf(plan, place)
  return earning.gt(0) ? power(earning.plus(1), twelfth).minus(1) : zero
}

const monthlyDividend = (plan: Plan, place: number): D =>
  d(plan.savings.accounts[place]!.mix.stocks).times(d(plan.assumptions.stockYield)).div(12)

/** Premiums and benchmarks by month where months with cover differ by more than half a cent; null where they do not. */
const unlike = (months: readonly { premium: D; benchmark: D }[]) => {
  const covered = months.filter(({ premium, benchmark }) => premium.gt(0) || benchmark.gt(0))
  const differs = covered.some(
    (one) =>
      one.premium.minus(covered[0]!.premium).abs().gt(0.005) ||
      one.benchmark.minus(covered[0]!.benchmark).abs().gt(0.005),
  )
  return differs
    ? {
        premium: Float64Array.from(months, ({ premium }) => premium.toNumber()),
        benchmark: Float64Array.from(months, ({ benchmark }) => benchmark.toNumber()),
      }
    : null
}

/** The calendar month from which a dependent is no more at home; relatives stay to 95 where nothing else is said. */
const goneFrom = (one: Plan['household']['dependents'][number]): number =>
  parseMonth(one.born.slice(0, 7))! +
  12 * (one.relation === 'relative' ? (one.planToAge ?? 95) : one.untilAge)
