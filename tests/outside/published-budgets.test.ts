// Published budgets worked through the farm's own course: margin, what is left for labor, break-even prices. Sources stand with each.
import { describe, expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { enterpriseBudgets } from '#farm/budgets.ts'
import { farmCourse } from '#farm/course.ts'
import { farmSchema } from '#farm/farm-document.ts'
import { type PublishedBudget, publishedBudgets } from './published-budgets.ts'

const worked = (one: PublishedBudget) => {
  const wage = one.wage ?? 0
  const farm = farmSchema.parse({
    enterprises: [
      {
        id: 'it',
        name: one.name,
        scale: one.units ?? 1,
        salesPerUnit: one.sales,
        costsPerUnit: one.costs,
        hoursPerUnit: one.hours ?? 0,
        ...(one.yield === undefined ? {} : { yieldPerUnit: one.yield }),
      },
    ],
    hired: { hourlyCost: wage },
  })
  const [budget] = enterpriseBudgets(farm, farmCourse(farm, month(2027, 1), 12), 0, wage)
  return {
    sales: budget!.sales,
    margin: budget!.grossMargin,
    leftAfterLabor: budget!.returnToLabor - budget!.hours * wage,
    breakEven: budget!.breakEvens[0]?.price,
    breakEvenWithLabor: budget!.breakEvens[0]?.priceWithWage,
    anHour: budget!.marginPerHour,
  }
}

describe.for(publishedBudgets)('$name ($source)', (one) => {
  test.for(Object.entries(one.expects))('%s', ([what, { value, within }]) => {
    const found = worked(one)[what as keyof ReturnType<typeof worked>]
    expect(Math.abs(found! - value)).toBeLessThanOrEqual(within)
  })
})

test('they are at least twenty, each with a source', () => {
  expect(publishedBudgets.length).toBeGreaterThanOrEqual(20)
  for (const { source, expects } of publishedBudgets) {
    expect(source.length).toBeGreaterThan(20)
    expect(Object.keys(expects).length).toBeGreaterThan(0)
  }
})
