// One of a couple can no longer work, where savings reach the floor before that as planned, and where they do not. Our own invention.
import { expect, test } from 'vitest'
import { type Month, parseMonth } from '#calendar/month.ts'
import { planSchema } from '#plan/plan.ts'
import { project } from '#runway/project.ts'
import { publishedRules } from '#runway/published-rules.ts'
import { oneAlone } from '#solve/slower-years.ts'
import { sayAlone } from '#views/slower-years/answers.tsx'

/** Her job pays 1,000 a month of the 2,000 they live on; savings hold no interest. */
const couple = (savings: number) =>
  planSchema.parse({
    startMonth: '2027-01',
    household: {
      people: [
        { id: 'ada', name: 'Ada', born: '1980-01-01', sex: 'female', planToAge: 60 },
        { id: 'bo', name: 'Bo', born: '1980-01-01', sex: 'male', planToAge: 60 },
      ],
      pay: [{ id: 'job', name: 'Job', person: 'ada', perMonth: 1_000 }],
      living: [{ id: 'all', name: 'Living', perMonth: 2_000 }],
      floor: { kind: 'dollars', dollars: 50_500 },
    },
    savings: { accounts: [{ id: 'jar', name: 'Checking', kind: 'cash', balance: savings }] },
    tax: { method: 'none' },
    assumptions: { inflation: 0 },
  })

const at = (plan: ReturnType<typeof couple>, from: Month) => oneAlone(plan, publishedRules(plan), from)

test('a floor reached before the work ends is the plan’s own, and said to be', () => {
  const plan = couple(80_000)
  const [ada, bo] = at(plan, parseMonth('2033-01')!)
  // 80,000 less 1,000 a month is below 50,500 after 30 months: in June 2029, whoever stops in 2033.
  expect(project(plan).milestones.floorMonth).toBe('2029-06')
  expect([ada!.floorMonth, bo!.floorMonth]).toEqual(['2029-06', '2029-06'])
  expect([ada!.floorAsPlanned, bo!.floorAsPlanned]).toEqual([true, true])
  // 72 months leave 8,000: without her pay the last is spent in April 2033, and from May on to January 2040, when both
  // are 60, 81 months go short. As planned 80,000 pay 80 months, to August 2033: 77 are left.
  expect(ada!.monthsShort).toBe(81)
  expect(sayAlone(ada!)).toMatch(
    /^As planned savings reach the floor in June 2029, before January 2033; without Ada’s work from then on they are lowest in \w+ 20\d\d, at \$0, and 81 months go short\.$/,
  )
  expect(sayAlone(bo!)).toMatch(/without Bo’s work from then on .* and 77 months go short\.$/)
})

test('a floor reached because the work ends is told of the work', () => {
  const [ada] = at(couple(80_000), parseMonth('2028-01')!)
  // 68,000 at the end of 2027, 2,000 a month from then on: 50,000 after nine months.
  expect([ada!.floorMonth, ada!.floorAsPlanned]).toEqual(['2028-09', false])
  expect(sayAlone(ada!)).toBe(
    'Without Ada’s work from January 2028 on, savings reach the floor in September 2028.',
  )
  const [, bo] = at(couple(400_000), parseMonth('2028-01')!)
  expect(sayAlone(bo!)).toBe('Without Bo’s work from January 2028 on, savings stay above the floor.')
})
