// A way with which any figure is worse than as planned is not called the best: it is said by what it is, and what it costs, and with what taken
// off it leaves more. Figures of our own invention.

import { expect, test } from 'vitest'
import { parseMonth } from '#calendar/month.ts'
import { type Standing, sayHoldingBeside } from '#solve/standing.ts'
import { chosenOf } from '#solve/ways/best-way.ts'
import type { WayTried } from '#solve/ways/ways-answer.ts'
import { sayWays } from '#solve/ways/ways-words.ts'
import { againstPlan } from '#views/questions/standings.tsx'
import { creditOrProgram } from '#views/questions/ways-shown.tsx'
import { saidOf } from './said-of.ts'

const saying = (...of: Parameters<typeof sayWays>): string => saidOf(sayWays(...of))

const share = (of: number) => ({ share: of, low: of, high: of, standardError: 0, of: 400 })
const amount = (value: number) => ({ value, low: value, high: value })

const tried = (id: string, name: string, change: Partial<WayTried>): WayTried => {
  const standing: Standing = {
    held: share(1),
    aboveFloor: share(0.95),
    monthsLeft: { p10: 300, median: 360 },
    carryMonth: amount(40),
    medianCarryMonth: 30,
    carries: share(1),
    lowestSavings: amount(52_000),
    atEnd: { p10: 100_000, median: 400_000 },
    farmAtEnd: { p10: 0, median: 0 },
  }
  const ends = { share: 0.2, low: 0.1, high: 0.3 }
  const none = {
    says: '',
    paths: 400,
    worse: false,
    worseIn: null,
    surer: false,
    tax: 0,
    credit: 0,
    leftMore: 0,
    unpaid: 0,
    programs: [],
  }
  const runsShort = { median: Number.POSITIVE_INFINITY, expected: Number.POSITIVE_INFINITY }
  const same = { share: 0, low: 0, high: 0 }
  return {
    id,
    name,
    ...standing,
    ...none,
    runsShort,
    holdsMore: same,
    paysLonger: same,
    paysMore: same,
    endsWithMore: ends,
    ...change,
  }
}

const first = parseMonth('2027-01')!
const plan = tried('plan', 'As planned', {})

test('what leaves most and is less sure is told by that and by what it costs, and the part that is taken off beside what is left without it', () => {
  const best = tried('roth', 'Roth first', {
    aboveFloor: share(0.93),
    lowestSavings: amount(47_500),
    leftMore: 2_400,
    atEnd: { p10: 100_000, median: 398_900 },
  })
  const says = saying([plan, best], { most: best, best, steadiest: null }, 0.15, first)
  expect(says).toMatch(
    /^“Roth first” leaves most of the ways tried, and costs this against today’s plan: savings stay above the floor in 93% of simulations instead of 95%, and lowest savings are \$47,500 instead of \$52,000\. With it \$2,400 more/,
  )
  expect(says).toContain(
    '$2,400 more is left at the end in the middle simulation than as planned, when what is left untaxed in traditional accounts counts 15% less; uncounted it is $1,100 less (',
  )
})

test('a conversion with lower lowest savings alone is not called the best', () => {
  const best = tried('convert-10000', 'Convert $10,000 a year', {
    lowestSavings: amount(51_000),
    leftMore: 9_000,
  })
  const says = saying([plan, best], { most: best, best, steadiest: null }, 0, first)
  expect(says).toMatch(
    /^“Convert \$10,000 a year” leaves most of the ways tried, and costs this against today’s plan: lowest savings are \$51,000 instead of \$52,000\. With it \$9,000 more/,
  )
  expect(says).not.toMatch(/best/i)
  // A dollar of rounding is no cost.
  const same = { ...best, lowestSavings: amount(51_999.5) }
  expect(saying([plan, same], { most: same, best: same, steadiest: null }, 0, first)).toMatch(
    /^Best of those tried: Convert/,
  )
  // Chosen for what it pays, or for how sure it is, it is told by that.
  const surely = { share: 0.1, low: 0.05, high: 0.15 }
  const pays = { ...best, held: share(1), holdsMore: surely }
  const holding = { ...plan, held: share(0.9) }
  expect(saying([holding, pays], { most: pays, best: pays, steadiest: null }, 0, first)).toContain(
    'leaves most of the ways tried that pay all bills most often, and costs this',
  )
  const sure = { ...best, leftMore: 8_000, aboveFloor: share(0.99) }
  const richest = tried('roth', 'Roth first', { leftMore: 9_000 })
  expect(saying([plan, richest, sure], { most: richest, best: sure, steadiest: null }, 0, first)).toMatch(
    /^“Convert \$10,000 a year”, with savings above the floor in 99% of simulations, where with “Roth first” they are in 95% and only \$1,000 more is left, is the surest of those tried that leave nearly as much, and costs this against today’s plan: lowest savings are \$51,000/,
  )
  const short = { held: share(0), aboveFloor: share(0) }
  const bare = tried('plan', 'As planned', { ...short, unpaid: 260_000 })
  const least = { ...best, ...short, unpaid: 60_000, paysMore: surely }
  expect(saying([bare, least], { most: least, best: least, steadiest: null }, 0, first)).toContain(
    'leaves most of the ways tried with which least goes unpaid, and costs this against today’s plan: lowest savings are $51,000 instead of $52,000. With it $60,000 goes unpaid in the middle simulation instead of $260,000, and $9,000 more',
  )
  const longer = { ...least, paysLonger: surely }
  expect(saying([bare, longer], { most: longer, best: longer, steadiest: null }, 0, first)).toContain(
    'leaves most of the ways tried with which money lasts longest, and',
  )
})

test('one that is as sure as the plan begins with its name', () => {
  const best = tried('roth', 'Roth first', { leftMore: 2_400, atEnd: { p10: 100_000, median: 402_400 } })
  const says = saying([plan, best], { most: best, best, steadiest: null }, 0, first)
  expect(says).toMatch(
    /^Best of those tried: Roth first: \$2,400 more [^.]*\. Then, as often as planned, nothing goes unpaid in 100%/,
  )
  expect(says).not.toContain('uncounted')
})

const within = (of: number) => ({ ...share(of), low: of - 0.03, high: of + 0.03 })
const low = tried('plan', 'As planned', { aboveFloor: within(0.07) })
const most = tried('taxable', 'Taxable first', { aboveFloor: within(0.07), leftMore: 191 })
const sure = (leftMore: number) =>
  tried('roth', 'Roth first', { aboveFloor: within(0.95), surer: true, leftMore })

test('where ways leave nearly the same, the one that is above the floor more often is the best, and both are told first', () => {
  // A hundredth of the 400,000 that the plan leaves is 4,000: 191 + 3,809 is within it, and one dollar more is not.
  const ways = [low, most, sure(-3_809)]
  const chosen = chosenOf(ways)
  expect([chosen.most.id, chosen.best.id, chosen.steadiest]).toEqual(['taxable', 'roth', null])
  expect(saying(ways, chosen, 0, first)).toMatch(
    /^Best of those tried: Roth first, with savings above the floor in 95% of simulations, where with “Taxable first” they are in 7% and only \$4,000 more is left: \$3,809 less/,
  )
})

test('where the surer one costs more than that, dollars decide, and each is named once, the best first', () => {
  const ways = [low, most, sure(-3_810)]
  const chosen = chosenOf(ways)
  expect([chosen.best.id, chosen.steadiest?.id]).toEqual(['taxable', 'roth'])
  const says = saying(ways, chosen, 0, first)
  expect(says).toMatch(
    /^Best of those tried: Taxable first: \$191 more [^.]*\. Then, as often as planned, [^.]*\. Surest of those tried: “Roth first”, with savings above the floor in 95% of simulations instead of 7%, and \$3,810 less left at the end than as planned\.$/,
  )
  // The best once, the surest once, and how often either holds: three sentences.
  expect(says.split('. ')).toHaveLength(3)
  expect(says.match(/Taxable first/g)).toHaveLength(1)
  expect(says.match(/Roth first/g)).toHaveLength(1)
  const beside = [low, sure(-20_000)]
  expect(saying(beside, chosenOf(beside), 0, first)).toMatch(
    /^None of the [^.]*\. Surest of those tried: “Roth first”, [^.]*, and \$20,000 less left/,
  )
})

test('what is surer by no more than chance does not decide', () => {
  const hardly = tried('roth', 'Roth first', { aboveFloor: within(0.12), surer: true, leftMore: 100 })
  expect(chosenOf([low, most, hardly]).best.id).toBe('taxable')
})

test('a way that pays more bills comes before one that leaves more, and what goes unpaid is told', () => {
  const short = { held: share(0), aboveFloor: share(0), leftMore: 0 }
  const bare = tried('plan', 'As planned', { ...short, unpaid: 260_000 })
  const richer = tried('roth', 'Roth first', { ...short, unpaid: 260_000, leftMore: 2_992 })
  const surely = { share: 1, low: 1, high: 1 }
  const sooner = tried('before-59', 'Sooner', {
    ...short,
    unpaid: 60_000,
    paysMore: surely,
    leftMore: -150_000,
  })
  const chosen = chosenOf([bare, richer, sooner])
  expect(chosen.best.id).toBe('before-59')
  expect(saying([bare, richer, sooner], chosen, 0, first)).toContain(
    'Best of those tried: Sooner, with which $60,000 goes unpaid in the middle simulation instead of $260,000: ',
  )
  // How long bills are paid decides before how much of them: three months longer, though 140,000 more goes unpaid in all.
  const at = (median: number) => ({ median, expected: median + 1 })
  const lasts = tried('later', 'Later', { ...short, unpaid: 200_000, paysLonger: surely, paysMore: surely })
  const longer = [
    { ...bare, runsShort: at(36) },
    { ...sooner, runsShort: at(36) },
    { ...lasts, runsShort: at(39) },
  ]
  expect(chosenOf(longer).best.id).toBe('later')
  // Counted from January 2027: months 39 and 36 are April and January 2030, and as expected they are a month later.
  expect(saying(longer, chosenOf(longer), 0, first)).toContain(
    'Money runs short in April 2030 with it and in January 2030 as planned in the middle simulation, in May 2030 with it and in February 2030 as planned when all goes as expected.',
  )
  // Where nothing goes unpaid more often, that decides before how much.
  const holds = tried('even', 'Evenly', {
    ...short,
    held: share(0.4),
    holdsMore: surely,
    paysMore: surely,
    unpaid: 80_000,
    leftMore: -160_000,
  })
  expect(chosenOf([bare, richer, sooner, holds]).best.id).toBe('even')
  // Where most simulations hold as planned, what is left decides, though a few that do not would lack less.
  const well = tried('plan', 'As planned', { held: share(0.9) })
  expect(chosenOf([well, { ...richer, held: share(0.9) }, { ...sooner, held: share(0.9) }]).best.id).toBe(
    'roth',
  )
})

test('two that hold as often, as it is told, are said once', () => {
  const share = (of: number) => ({ share: of }) as Standing['held']
  const one = { held: share(1), aboveFloor: share(0.9) }
  expect(sayHoldingBeside(one, { held: share(1), aboveFloor: share(0.90004) })).toBe(
    'Then, as often as planned, nothing goes unpaid in 100% of simulations, and savings stay above the floor in 90%',
  )
  expect(sayHoldingBeside(one, { held: share(0.98), aboveFloor: share(0.9) })).toBe(
    'Then nothing goes unpaid in 100% of simulations instead of 98%, and savings stay above the floor in 90% as planned',
  )
})

test('a way that is worse says in what, one word a reason', () => {
  // Ahead at the end in most simulations and yet no answer: savings are below the floor sooner.
  expect(againstPlan({ worseIn: 'sooner', surer: false })).toBe('not so well: below the floor sooner')
  expect(againstPlan({ worseIn: 'held' })).toBe('not so well: something goes unpaid more often')
  expect(againstPlan({ worseIn: null, surer: true })).toBe('better')
  expect(againstPlan({ worseIn: null })).toBe('no difference beyond chance')
})

test('where a program covers in place of the premium credit, it is told beside the credit', () => {
  // From the poverty level up to twice it a state may run a basic health program, whose members have no credit (42 CFR 600.305).
  const programs = [
    { program: 'Medicaid', months: 6 },
    { program: 'basic health program', months: 1_020 },
  ] as const
  expect(creditOrProgram({ credit: 0, programs: [...programs] })).toBe(
    '$0, 6 months in Medicaid, 1,020 months in the basic health program',
  )
  expect(creditOrProgram({ credit: 900, programs: [] })).toBe('$900')
})
