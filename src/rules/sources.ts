// Every figure of the law that the project uses, as one list: value, unit, year, source, and whether it was read, recalled or computed.
import * as ageCurve from './data/age-curve.ts'
import * as businessDeductions from './data/business-deductions.ts'
import * as consumerPrices from './data/consumer-prices.ts'
import * as coverageAges from './data/coverage-ages.ts'
import * as credits from './data/credits.ts'
import * as depreciation from './data/depreciation.ts'
import * as enrollment from './data/enrollment.ts'
import * as farmPayroll from './data/farm-payroll.ts'
import * as farmTiming from './data/farm-timing.ts'
import * as growthProjections from './data/growth-projections.ts'
import * as incomeTax from './data/income-tax.ts'
import * as inheritedAccounts from './data/inherited-accounts.ts'
import * as marketplace from './data/marketplace.ts'
import * as medicare from './data/medicare.ts'
import * as retirementAccounts from './data/retirement-accounts.ts'
import * as selfEmployment from './data/self-employment.ts'
import * as socialSecurity from './data/social-security.ts'
import * as stateAgeCurves from './data/state-age-curves.ts'
import * as workRequirement from './data/work-requirement.ts'
import { type Amounts, type Dated, type Obtained, obtainedFor } from './dated.ts'

/** A published figure, or a table of them, with all its years. */
export interface OutsideFigure {
  topic: string
  rule: string
  unit: string
  source: string
  note?: string
  values: { year: string; value: string; obtained: Obtained }[]
  /** What holds after the last year, in words. */
  after: string
}

/** Data modules by the topic they are listed under. A test holds this list against the folder. */
export const lawTopics: Readonly<Record<string, Readonly<Record<string, unknown>>>> = {
  'Income tax': incomeTax,
  'Self-employment tax': selfEmployment,
  'Credits and the business deduction': credits,
  'Marketplace coverage': marketplace,
  'Premiums by age': ageCurve,
  'Premiums by age, states of their own': stateAgeCurves,
  'Medicaid and the children’s program': coverageAges,
  'Medicaid’s work requirement': workRequirement,
  'Growth of premiums and care': growthProjections,
  Medicare: medicare,
  'Enrollment windows': enrollment,
  'Social Security': socialSecurity,
  'Retirement and health savings accounts': retirementAccounts,
  'Inherited retirement accounts': inheritedAccounts,
  'Depreciation and write-offs': depreciation,
  'Farm and venture deductions, papers to payees': businessDeductions,
  'Estimated tax and stock sales': farmTiming,
  'Consumer prices': consumerPrices,
  'Wages of farm workers': farmPayroll,
}

/** All dated facts of the law in the order of `lawTopics`. */
export const lawFigures = (): OutsideFigure[] =>
  datedFacts().map(({ topic, fact }) => ({
    topic,
    rule: fact.rule,
    unit: fact.unit,
    source: fact.source,
    ...(fact.note ? { note: fact.note } : {}),
    values: Object.entries({ ...fact.values, ...fact.ahead }).map(([year, amount]) => ({
      year,
      value: amountText(amount),
      obtained: obtainedFor(fact, Number(year)),
    })),
    after: afterText(fact),
  }))

/** Every dated fact with the name it is exported under: for the list and for the walk that checks them. */
export const datedFacts = (): { topic: string; name: string; fact: Dated }[] =>
  Object.entries(lawTopics).flatMap(([topic, module]) =>
    Object.entries(module)
      .filter((entry): entry is [string, Dated] => isDated(entry[1]))
      .map(([name, fact]) => ({ topic, name, fact })),
  )

const isDated = (value: unknown): value is Dated =>
  typeof value === 'object' && value !== null && 'values' in value && 'after' in value && 'rule' in value

/** A number with thousands set apart; lists in order, named parts by name. */
export const amountText = (amount: Amounts): string => {
  if (typeof amount === 'number') return numberText(amount)
  if (Array.isArray(amount)) {
    const nested = amount.some((part) => typeof part !== 'number')
    return amount.map((part: Amounts) => (nested ? `[${amountText(part)}]` : amountText(part))).join('; ')
  }
  return Object.entries(amount)
    .map(([name, part]) => `${name}: ${amountText(part)}`)
    .join('; ')
}

const numberText = (amount: number): string => {
  if (!Number.isFinite(amount)) return 'no limit'
  const [whole, fraction] = String(Math.round(amount * 1e8) / 1e8).split('.')
  const grouped = whole!.replace(/\B(?=(\d{3})+(?!\d))/g, ',')
  return fraction ? `${grouped}.${fraction}` : grouped
}

const afterText = ({ after }: Dated): string => {
  switch (after.by) {
    case 'prices':
    case 'wages': {
      const to = typeof after.to === 'number' ? after.to : after.to.join(', ')
      const way = after.rounding === 'down' ? 'rounded down to' : 'to the nearest'
      const base = after.unrounded === undefined ? '' : ` from ${amountText(after.unrounded)} before rounding`
      return `moves with ${after.by}${base}, ${way} ${to}; marked projected`
    }
    case 'statute':
      return 'kept by the statute until it is changed'
    case 'held':
      return 'kept, marked projected'
    case 'none':
      return 'not used for later years'
  }
}
