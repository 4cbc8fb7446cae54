// When to slow down asked of a farm whose work has no hours: fewer of them change nothing, and that is said in place of rows that are alike.
import { expect, test } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { slowDownLacks, solveSlowDown } from '#solve/slow-down.ts'
import { quiet } from '../chance/plans.ts'
import { asking } from './asking.ts'
import { saidOf } from './said-of.ts'

const stall = { id: 'stall', name: 'Stall', salesPerUnit: 12_000 }
const slower = {
  from: '2030-01',
  name: 'Slower',
  weeklyHours: [{ who: 'una', hours: 10 }],
}
const planOf = (farm: object) =>
  planSchema.parse({
    startMonth: '2027-01',
    years: 8,
    household: {
      people: [{ id: 'una', name: 'Una', born: '1970-02-02' }],
      living: [{ id: 'living', name: 'Living', perMonth: 1000 }],
    },
    savings: { accounts: [{ id: 'jar', name: 'Savings', kind: 'cash', balance: 200_000 }] },
    farm: { crew: [{ who: 'una', weeklyHours: 40 }], ...farm },
    chance: quiet,
    tax: { method: 'none' },
  } as PlanInput)

test('typed hours or phases of hours alone: without hours of any work it says what is missing, and no course is run', async () => {
  for (const [phases, weeklyHours] of [
    [[], 10],
    [[slower], undefined],
  ] as const) {
    let runs = 0
    const base = asking(planOf({ enterprises: [stall], phases }), 20)
    const courses = new Proxy(base.courses, {
      get: (of, name) => {
        runs += 1
        return Reflect.get(of, name)
      },
    })
    const told = await solveSlowDown({ ...base, courses, weeklyHours })
    expect(told.answer.kind).toBe('cannot be reached')
    expect(saidOf(told)).toContain('no enterprise or herd has hours in the plan')
    expect(told.tried).toEqual([])
    expect(runs).toBe(0)
  }
})

test('hours of an enterprise, a herd or an overhead are enough to be asked, and so is a phase that makes the farm smaller', () => {
  const lacks = (farm: object) => slowDownLacks(planOf(farm)) !== null
  expect(lacks({ enterprises: [stall], phases: [slower] })).toBe(true)
  expect(lacks({ enterprises: [{ ...stall, hoursPerUnit: 900 }], phases: [slower] })).toBe(false)
  expect(
    lacks({ enterprises: [stall], overheads: [{ id: 'desk', name: 'Desk', hours: 120 }], phases: [slower] }),
  ).toBe(false)
  const flock = {
    id: 'ewes',
    name: 'Ewes',
    kind: 'sheep',
    start: '2027-01',
    breedingFemales: 9,
    carryingLimit: 9,
  }
  expect(lacks({ enterprises: [stall], herds: [flock], phases: [slower] })).toBe(true)
  expect(lacks({ enterprises: [stall], herds: [{ ...flock, hoursFixed: 20 }], phases: [slower] })).toBe(false)
  const half = { ...slower, scales: [{ enterprise: 'stall', value: 0.5 }] }
  expect(lacks({ enterprises: [stall], phases: [half] })).toBe(false)
})
