// The page of “When to slow down” says before it is asked that no work of the farm has hours, with the way to enter them.
import { expect, test } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { testApp } from './test-app.ts'

test('hours that are missing are said before the question runs, and no longer once they are there', async () => {
  const app = testApp({ today: '2026-01-20' })
  const save = (hoursPerUnit: number, basedOn: number) =>
    app.savePlan(
      planSchema.parse({
        startMonth: '2026-01',
        household: { people: [{ id: 'una', name: 'Una', born: '1980-02-02' }] },
        farm: { enterprises: [{ id: 'beds', name: 'Beds', salesPerUnit: 9000, hoursPerUnit }] },
      } as PlanInput),
      { basedOn },
    )
  const page = async () => (await app.get('/runway/questions/slow-down')).text()
  save(0, 0)
  expect(await page()).toContain('No enterprise or herd has hours in the plan')
  expect(await page()).toContain('<a href="/farm/enterprises">Enter the hours of each enterprise</a>')
  expect(await (await app.get('/runway/questions/draw')).text()).not.toContain('has hours in the plan')
  save(400, 1)
  expect(await page()).not.toContain('has hours in the plan')
  app.close()
})
