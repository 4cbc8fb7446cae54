// `npm run soak`: ten minutes of mixed requests at 50 a second; `npm run soak -- 60` for one minute. Prints what it saw.
import { soak, soakWords } from './soak.ts'
import { soakHouse } from './soak-house.ts'

const seconds = Number.parseInt(process.argv[2] ?? '600', 10)
const house = await soakHouse()
const report = await soak(house.app, house.pick, { seconds, perSecond: 50, seed: 7 })
house.close()
console.log(soakWords(report, seconds))
if (house.broken.length > 0) console.log(`${house.broken.length} pages broke`)
const growth = report.heapLateMegabytes - report.heapEarlyMegabytes
const isWell =
  report.failures.length + house.broken.length === 0 && growth <= 40 && report.largestMegabytes < 500
process.exitCode = isWell ? 0 : 1
