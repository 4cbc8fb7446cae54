// Months left that count on work to the end of the plan say so: whose pay, which venture, and the farm. Two of our own invention.
import { expect, test } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { workedToEnd } from '#today/now/worked-to-end.ts'

const told = (household: PlanInput['household'], farm: PlanInput['farm'] = {}) =>
  workedToEnd(
    planSchema.parse({
      startMonth: '2026-12',
      household: {
        people: [
          { id: 'orrin', name: 'Orrin', born: '1969-03-11', planToAge: 90 },
          { id: 'hedda', name: 'Hedda', born: '1972-08-02', planToAge: 95 },
        ],
        ...household,
      },
      farm,
    }),
  )
const nurse = { id: 'nurse', name: 'School nurse', person: 'hedda', perMonth: 3300 }
const loom = { id: 'loom', name: 'Weaving', person: 'hedda', perMonth: 410 }
const lambs = { enterprises: [{ id: 'lambs', name: 'Lambs', salesPerUnit: 9000 }] }

test('pay, ventures and a farm without an end are named with the age at which the plan ends', () => {
  expect(told({ pay: [nurse], sideVentures: [loom] }, lambs)!.says).toBe(
    'Work goes on to the end of the plan, when Hedda is 95: “School nurse”, “Weaving”, and farm work as it is. Enter a last month under Household and a slower year under Slower years to count less.',
  )
  expect(told({ pay: [nurse] })).toMatchObject({ names: ['School nurse'], farm: false })
})

test('what ends, a pension, a farm that slows down, and a plan that ends at 70 are nothing to tell', () => {
  const pension = { ...nurse, id: 'fund', kind: 'pension' as const }
  expect(
    told({ pay: [{ ...nurse, to: '2034-06' }, pension], sideVentures: [{ ...loom, to: '2040-01' }] }),
  ).toBeNull()
  const slower = [{ name: 'Fewer hours', from: '2034-01' }]
  expect(told({}, { ...lambs, phases: slower })).toBeNull()
  const young = [{ id: 'hedda', name: 'Hedda', born: '1972-08-02', planToAge: 70 }]
  expect(told({ people: young, pay: [nurse] }, lambs)).toBeNull()
})
