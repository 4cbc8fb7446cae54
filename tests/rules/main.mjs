// `npm run households`: 60,000 random households, each property of the law on all of them; `npm run households -- 50000 7` for as many of a seed.
import { startVitest } from 'vitest/node'

const files = ['return-properties', 'carryforwards', 'states/state-law'].map(
  (name) => `tests/rules/${name}.test.ts`,
)
const [count = '60000', seed] = process.argv.slice(2)
if (/^\d{3,7}$/.test(count) && /^\d{1,9}$/.test(seed ?? '0')) {
  process.env.HOUSEHOLDS = count
  if (seed !== undefined) process.env.HOUSEHOLD_SEED = seed
  const vitest = await startVitest('test', files, {
    config: 'tests/vitest.config.ts',
    watch: false,
    testTimeout: 3_600_000,
  })
  await vitest.close()
} else {
  console.error('Give whole numbers, 100 households or more: npm run households -- HOUSEHOLDS SEED')
  process.exitCode = 2
}
