// The plan's own claim age, with its months, is one of the rows and the one told as the plan's. A weaver of our own invention who
// claims at 66 and 5 months: that row is the plan itself.
import { expect, test } from 'vitest'
import { planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { solveClaim } from '#solve/claim.ts'
import { claimChoices } from '#solve/slower-years.ts'
import { runOf } from '#solve/standing.ts'
import { takesOf } from '#solve/take.ts'
import { asking } from './asking.ts'
import { saidOf } from './said-of.ts'

const weaver = (months: number) =>
  planSchema.parse({
    startMonth: '2027-01',
    household: {
      people: [
        {
          id: 'ro',
          name: 'Ro',
          born: '1967-04-10',
          planToAge: 85,
          claimAge: { years: 66, months },
          earnings: Array.from({ length: 35 }, (_, k) => ({ year: 1990 + k, amount: 40_000 })),
        },
      ],
      living: [{ id: 'all', name: 'Living', perMonth: 1_000 }],
    },
    savings: { accounts: [{ id: 'jar', name: 'Savings', kind: 'cash', balance: 400_000 }] },
    tax: { method: 'none' },
    assumptions: { inflation: 0 },
  })

test('an age with months has its own row, which ends as the plan does', () => {
  const plan = weaver(5)
  const [person] = claimChoices(plan, publishedRules(plan))
  expect(person!.planned).toEqual({ years: 66, months: 5 })
  expect(person!.choices.map(({ age }) => age.years + age.months / 12)).toEqual([
    62,
    63,
    64,
    65,
    66,
    66 + 5 / 12,
    67,
    68,
    69,
    70,
  ])
  const own = person!.choices[5]!
  const last = project(plan).months.at(-1)!
  expect(own.savingsAtEnd).toBeCloseTo(last.cash - last.taxOwed, 2)
  // Five months at five ninths of a percent each lie between 66 and 66 and 5 months (20 CFR 404.410): it pays more than 66, less than 67.
  expect(own.monthlyAfter70).toBeGreaterThan(person!.choices[4]!.monthlyAfter70!)
  expect(own.monthlyAfter70).toBeLessThan(person!.choices[6]!.monthlyAfter70!)
  const whole = weaver(0)
  expect(claimChoices(whole, publishedRules(whole))[0]!.choices).toHaveLength(9)
})

const endingAt = (planToAge: number) => {
  const plan = weaver(0)
  plan.household.people[0]!.planToAge = planToAge
  plan.chance.lives = false
  return plan
}

test('of a plan that ends before 71 what benefits then are is not known, and not nothing', () => {
  const plan = endingAt(66)
  const choices = claimChoices(plan, publishedRules(plan))[0]!.choices
  expect(choices.map(({ monthlyAfter70 }) => monthlyAfter70)).toEqual(choices.map(() => null))
  // Claimed at 62 they are paid for four years before the plan ends.
  expect(choices[0]!.hasBenefits).toBe(true)
})

test('claim ages past the end of the plan are not tried, and that it favors early claims comes first', async () => {
  // Born in April 1967: 66 ends in March 2034; whole ages before it are 62 to 66.
  const found = await solveClaim(asking(endingAt(66), 50))
  expect(found.tried.map(({ ages }) => ages)).toEqual([[62], [63], [64], [65], [66]])
  expect(saidOf(found)).toMatch(
    /^The plan ends early \(for Ro in .* 20\d\d, at 6[67]\): what benefits pay later is not/,
  )
  // One that goes on past 70 says nothing of it, and neither does one with drawn lives, whatever age it plans to.
  expect(saidOf(await solveClaim(asking(endingAt(80), 50)))).not.toContain('ends early')
  const drawn = endingAt(66)
  drawn.chance.lives = true
  const lives = await solveClaim(asking(drawn, 50))
  expect(lives.tried).toHaveLength(9)
  expect(saidOf(lives)).not.toContain('ends early')
})

test('the ages of the expected course end with the plan too; the plan’s own stays', () => {
  const ages = (planToAge: number, years: number) => {
    const plan = endingAt(planToAge)
    plan.household.people[0]!.claimAge = { years, months: 0 }
    return claimChoices(plan, publishedRules(plan))[0]!.choices.map(({ age }) => age.years)
  }
  // Born in April 1967: planned to 66 the plan ends before 67 comes.
  expect(ages(66, 64)).toEqual([62, 63, 64, 65, 66])
  expect(ages(66, 70)).toEqual([62, 63, 64, 65, 66, 70])
  expect(ages(85, 67)).toHaveLength(9)
})

test('a plan that ends before the first claim age has nothing to choose, and says so', async () => {
  const found = await solveClaim(asking(endingAt(61), 50))
  expect(found.answer.kind).toBe('cannot be reached')
  expect(saidOf(found)).toMatch(
    /^This cannot be reached, because nobody in the plan has a claim age still to choose: the plan ends before another age comes \(for Ro it ends in \w+ 202\d\)\./,
  )
})

// The plan's own claim at 66 and 5 months is none of the whole ages: told as 66 it stood as another plan, and a best of 66 changed nothing.
test('the plan’s own age is tried with its months, and what is strongest stands as the plan with it taken', async () => {
  for (const months of [5, 11]) {
    const plan = weaver(months)
    const about = asking(plan, 20)
    const found = await solveClaim(about)
    if (found.answer.kind !== 'reached') throw new Error(found.sentence)
    const { planned, strongest } = found.answer
    expect(planned.ages).toEqual([66 + months / 12])
    expect(found.tried).toContainEqual(planned)
    expect(found.tried).toHaveLength(10)
    const own = await runOf(about, plan, {})
    expect(planned.medianAtEnd).toBeCloseTo(own.standing.atEnd.median, 6)
    const [take] = takesOf(found)
    expect(take === undefined).toBe(strongest === planned)
    const taken = await runOf(about, take?.change(plan) ?? plan, {})
    expect(strongest.medianAtEnd).toBeCloseTo(taken.standing.atEnd.median, 6)
  }
})

test('a best of the very year of the plan’s own age, without its months, can be taken', async () => {
  // Lives that end at 74 make the early claim worth most; at 62 and 5 months only 62 is earlier, and not its own age.
  const plan = endingAt(74)
  plan.household.people[0]!.claimAge = { years: 62, months: 5 }
  const found = await solveClaim(asking(plan, 20))
  if (found.answer.kind !== 'reached') throw new Error(found.sentence)
  expect(found.answer.strongest.ages).toEqual([62])
  expect(found.answer.strongest.medianAtEnd).toBeGreaterThan(found.answer.planned.medianAtEnd)
  expect(saidOf(found)).toContain('Ro at 62 and 5 months')
  expect(takesOf(found)[0]!.change(plan)!.household.people[0]!.claimAge).toEqual({ years: 62, months: 0 })
})
