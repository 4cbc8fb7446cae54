// Twenty seconds of the soak in the test command; `npm run soak` runs ten minutes of the same.
import { expect, test } from 'vitest'
import { soak, soakWords } from '../soak/soak.ts'
import { soakHouse } from '../soak/soak-house.ts'

test('twenty seconds of mixed requests at 50 a second: no error, memory stays flat and bounded', {
  timeout: 300_000,
}, async () => {
  const house = await soakHouse()
  const report = await soak(house.app, house.pick, { seconds: 20, perSecond: 50, seed: 11 })
  house.close()
  console.log(soakWords(report, 20))
  expect(report.failures).toEqual([])
  expect(house.broken).toEqual([])
  expect(report.requests).toBe(1000)
  expect(report.heapLateMegabytes - report.heapEarlyMegabytes).toBeLessThan(25)
  expect(report.largestMegabytes).toBeLessThan(500)
})
