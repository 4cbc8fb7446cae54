// The health of all law data: years without holes, ordered brackets, a unit and a source on each, nothing unlisted.
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import * as selfEmployment from '#rules/data/self-employment.ts'
import { averageWageIndex, bendPoints, contributionAndBenefitBase } from '#rules/data/social-security.ts'
import {
  type Amounts,
  lastKnownYear,
  obtainedWays,
  roundedAs,
  steadyIndexing,
  yearsOf,
} from '#rules/dated.ts'
import { benefitLaw } from '#rules/social-security/benefit-law.ts'
import { datedFacts, lawFigures, lawTopics } from '#rules/sources.ts'

const facts = datedFacts()
const named = facts.map(({ name, fact }) => [name, fact] as const)

/** Facts whose years are changes of statute or years of birth, not tax years: holes between them are meant. */
const bySteps = new Set([
  'wageIndexedAmounts',
  'fullRetirementAge',
  'delayedCreditRate',
  'distributionStartAges',
  'recoveryYears',
  'decliningBalancePercent',
  'saversMatch',
  'bronzeAllowsHsa',
])

/** One amount per filing status: a list that follows no order. */
const byStatus = new Set(['qbiRange'])

/** An empty list says that the year has no limit. */
const emptyMeansNone = new Set(['repaymentLimit'])

const numbersIn = (amount: Amounts): number[] => {
  if (typeof amount === 'number') return [amount]
  return (Array.isArray(amount) ? amount : Object.values(amount)).flatMap(numbersIn)
}

test('every data file of the room is listed', () => {
  const folder = new URL('../../src/rules/data/', import.meta.url)
  const listed = new Set(Object.values(lawTopics).flatMap((module) => Object.keys(module)))
  for (const file of readdirSync(folder).filter((name) => name.endsWith('.ts'))) {
    const exported = [...readFileSync(new URL(file, folder), 'utf8').matchAll(/^export const (\w+)/gm)]
    for (const [, name] of exported) expect(listed.has(name!), `${file}: ${name}`).toBe(true)
  }
  expect(facts.length).toBeGreaterThan(100)
})

describe.for(named)('%s', ([name, fact]) => {
  test('names its rule, unit and source, and says how it was obtained', () => {
    expect(fact.rule.length).toBeGreaterThan(5)
    expect(fact.unit.length).toBeGreaterThan(3)
    expect(fact.source).toMatch(/\d/)
    expect(obtainedWays).toContain(fact.obtained)
    // What the words of its source or note call second hand is marked as such.
    const words = `${fact.source} ${fact.note ?? ''}`
    const ways = [fact.obtained, ...Object.values(fact.obtainedIn ?? {})]
    if (/second hand|as reported|as quoted|as told|open rules library|firm pages?/.test(words))
      expect(
        ways.some((way) => way !== 'read'),
        fact.rule,
      ).toBe(true)
    for (const year of Object.keys(fact.ahead ?? {})) expect(Number(year)).toBeGreaterThan(yearsOf(fact).last)
    for (const [year, way] of Object.entries(fact.obtainedIn ?? {})) {
      expect(fact.values[Number(year)], `${year} is marked but has no value`).toBeDefined()
      expect(way).not.toBe(fact.obtained)
    }
  })

  test('has a value for every year from its first to its last', () => {
    const { first, last } = yearsOf(fact)
    expect(Number.isInteger(first) && first >= 1900 && last <= 2100).toBe(true)
    if (bySteps.has(name)) return
    for (let year = first; year <= last; year++) expect(fact.values[year], String(year)).toBeDefined()
  })

  test('holds numbers only, none below zero, and one shape in every year', () => {
    const values = Object.values(fact.values)
    for (const value of values) {
      const numbers = numbersIn(value)
      if (!emptyMeansNone.has(name)) expect(numbers.length).toBeGreaterThan(0)
      for (const amount of numbers) expect(amount).toBeGreaterThanOrEqual(0)
    }
    if (!emptyMeansNone.has(name)) expect(new Set(values.map(shapeOf)).size).toBe(1)
  })

  test('orders its brackets, lines and ranges', () => {
    if (
      byStatus.has(name) ||
      !/Starts|Range|Lines|bendPoints|Bands/.test(name) ||
      typeof Object.values(fact.values)[0] === 'number'
    )
      return
    for (const value of Object.values(fact.values))
      for (const list of innerLists(value)) expectRising(list, name)
  })

  test('amounts in dollars do not fall from one year to the next', () => {
    if (!/^dollars/.test(fact.unit) || fallsByLaw.has(name)) return
    const years = Object.keys(fact.values).map(Number)
    for (const year of years.slice(1)) {
      const before = numbersIn(fact.values[year - 1] ?? fact.values[years[0]!]!)
      const now = numbersIn(fact.values[year]!)
      now.forEach((amount, i) => {
        expect(amount, `${name} ${year}`).toBeGreaterThanOrEqual(before[i]!)
      })
    }
  })
})

const law = benefitLaw(2027, steadyIndexing(0.025))
const quarterIn = (year: number) => law.quarterAmount[year - law.firstYear]!

test('amounts that stand in two places are the same', () => {
  for (const [year, base] of Object.entries(selfEmployment.wageBase.values))
    expect(contributionAndBenefitBase.values[Number(year)], year).toBe(base)
  for (const [year, maximum] of Object.entries(selfEmployment.optionalMethodMax.values))
    expect(4 * quarterIn(Number(year)), year).toBe(maximum)
})

describe('amounts indexed from the base of the statute', () => {
  const indexed = facts.flatMap(({ name, fact }) => {
    const { after } = fact
    return 'unrounded' in after && after.unrounded !== undefined ? [{ name, fact, after }] : []
  })

  test.for(indexed)(
    '$name: what stands before rounding rounds to the last amount known',
    ({ fact, after }) => {
      const last = lastKnownYear(fact)
      expect(roundedAs(after, after.unrounded!, 1)).toEqual(fact.values[last] ?? fact.ahead?.[last])
    },
  )

  // From the 12 months to August 2025 to those to August 2026 the chained index rose by 3.245 %: the same bases, one year of
  // prices less, give what Rev. Proc. 2025-32 and Notice 2025-67 published for 2026. Not for amounts whose base is of 2025, and
  // not for those that follow the index of all urban consumers, whose months are others.
  const otherMonths =
    /^(deferral|annualAdditions|compensation|simple|incomeLines|minimumTaxPhaseOutFrom|qbiMinimum)/
  test.for(indexed.filter(({ name, fact }) => fact.ahead?.[2027] !== undefined && !otherMonths.test(name)))(
    '$name: a year of prices less gives the published amount of 2026',
    ({ fact, after }) => {
      expect(roundedAs(after, after.unrounded!, 1 / 1.03245)).toEqual(fact.values[2026])
    },
  )
})

test('Social Security series reach from their first year to the present without a hole', () => {
  expect(yearsOf(averageWageIndex)).toEqual({ first: 1951, last: 2024 })
  expect(yearsOf(bendPoints)).toEqual({ first: 1979, last: 2026 })
  expect(yearsOf(contributionAndBenefitBase)).toEqual({ first: 1951, last: 2027 })
})

test('the printed list has every fact with all its years', () => {
  const figures = lawFigures()
  expect(figures).toHaveLength(facts.length)
  const years = facts.reduce(
    (sum, { fact }) => sum + Object.keys({ ...fact.values, ...fact.ahead }).length,
    0,
  )
  expect(figures.reduce((sum, figure) => sum + figure.values.length, 0)).toBe(years)
  expect(
    figures.every((figure) => figure.values.every(({ value }) => !/undefined|NaN|object/.test(value))),
  ).toBe(true)
})

/** Figures told from years and round numbers by their digits: 0.9235, 150,000. */
const isTelling = (amount: number): boolean => {
  if (Number.isInteger(amount) && amount >= 1900 && amount <= 2200) return false
  const digits = String(amount).replace('.', '').replace(/^0+/, '').replace(/0+$/, '')
  return amount > 0 && (digits.length > 2 || (amount > 1000 && digits.length > 1))
}

/** Amounts in cents are written 3_000_00. */
const writtenDollars = (literal: string): number =>
  Number(literal.replaceAll('_', '')) / (/_\d\d$/.test(literal) ? 100 : 1)

test('no dollars of the law are written out in the words of a page', () => {
  const known = new Set(facts.flatMap(({ fact }) => Object.values(fact.values).flatMap(numbersIn)))
  const root = new URL('../../', import.meta.url)
  const found = ['views', 'src/web'].flatMap((room) =>
    readdirSync(new URL(`${room}/`, root), { recursive: true })
      .map((file) => `${room}/${file}`)
      .filter((file) => /\.tsx?$/.test(file))
      .flatMap((file) =>
        [...readFileSync(new URL(file, root), 'utf8').matchAll(/(?<![\w.,'])(\d[\d,]*) dollars/g)]
          .filter(([, literal]) => known.has(Number(literal!.replaceAll(',', ''))))
          .map(([words]) => `${file}: ${words}`),
      ),
  )
  expect(found).toEqual([])
})

test('no figure of the law stands in the code beside the data', () => {
  const known = new Set(
    facts.flatMap(({ fact }) => Object.values(fact.values).flatMap(numbersIn)).filter(isTelling),
  )
  const root = new URL('../../src/', import.meta.url)
  const found = ['rules', 'runway', 'today'].flatMap((room) =>
    readdirSync(new URL(`${room}/`, root), { recursive: true })
      .map((file) => `${room}/${file}`)
      .filter((file) => file.endsWith('.ts') && !file.startsWith('rules/data/'))
      .flatMap((file) =>
        readFileSync(new URL(file, root), 'utf8')
          .split('\n')
          .filter((line) => !/^\s*(\*|\/\/|\/\*|source:)/.test(line))
          .flatMap((line) =>
            [...line.matchAll(/(?<![\w.'])\d[\d_]*(?:\.\d+)?(?![\w.])/g)]
              .filter(([literal]) => known.has(writtenDollars(literal!)))
              .map(() => `${file}: ${line.trim()}`),
          ),
      ),
  )
  expect(known.size).toBeGreaterThan(500)
  expect(found).toEqual([])
})

/**
 * Amounts that fell: the wage index in 2009 and the bend points of 2011 with it; the separate line, which is the top less the
 * first; the senior deduction, which lapses in 2029; the loss limit and the minimum tax phase-out, set back by P.L. 119-21; the limits of cars, which follow car prices.
 */
const fallsByLaw = new Set([
  'averageWageIndex',
  'bendPoints',
  'incomeLinesSeparate',
  'seniorDeduction',
  'businessLossLimit',
  'minimumTaxPhaseOutFrom',
  'passengerCarLimits',
])

const shapeOf = (value: Amounts): string => {
  if (typeof value === 'number') return 'n'
  if (Array.isArray(value)) return `[${value.map(shapeOf).join()}]`
  return `{${Object.entries(value)
    .map(([key, part]) => `${key}:${shapeOf(part)}`)
    .join()}}`
}

const innerLists = (value: Amounts): number[][] => {
  if (typeof value === 'number') return []
  const parts: readonly Amounts[] = Array.isArray(value) ? value : Object.values(value)
  return parts.every((part) => typeof part === 'number') ? [parts as number[]] : parts.flatMap(innerLists)
}

const expectRising = (list: readonly number[], name: string) => {
  list.forEach((amount, i) => {
    if (i > 0) expect(amount, `${name}: ${list}`).toBeGreaterThanOrEqual(list[i - 1]!)
  })
}
