// A short soak in the test command; `npm run soak` runs ten minutes of the same.
import { expect, test } from 'vitest'
import { soak } from '../soak/soak.ts'
import { soakHouse } from '../soak/soak-house.ts'

test('half a minute of mixed requests at 50 a second: no error, memory stays flat', {
  timeout: 300_000,
}, async () => {
  const house = await soakHouse()
  const report = await soak(house.app, house.pick, { seconds: 30, perSecond: 50, seed: 11 })
  house.close()
  expect(report.failures).toEqual([])
  expect(house.broken).toEqual([])
  expect(report.requests).toBe(1500)
  expect(report.heapLateMegabytes - report.heapEarlyMegabytes).toBeLessThan(60)
})
