// `npm run soak`: ten minutes of mixed requests at 50 a second; `npm run soak -- 60` for one minute. Prints what it saw.
import { soak } from './soak.ts'
import { soakHouse } from './soak-house.ts'

const seconds = Number.parseInt(process.argv[2] ?? '600', 10)
const house = await soakHouse()
const report = await soak(house.app, house.pick, { seconds, perSecond: 50, seed: 7 })
house.close()
const growth = report.heapLateMegabytes - report.heapEarlyMegabytes
console.log(
  [
    `${report.requests} requests in ${seconds} s, ${report.failures.length} failed, ${house.broken.length} broke`,
    `median ${report.medianMilliseconds.toFixed(1)} ms, p99 ${report.p99Milliseconds.toFixed(1)} ms, longest ${report.longestMilliseconds.toFixed(0)} ms`,
    `heap ${report.heapEarlyMegabytes.toFixed(0)} MB early, ${report.heapLateMegabytes.toFixed(0)} MB late (${growth.toFixed(0)} MB more)`,
    ...report.failures,
  ].join('\n'),
)
process.exitCode = report.failures.length + house.broken.length > 0 || growth > 40 ? 1 : 0
