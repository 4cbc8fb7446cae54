// `npm run fuzz`: ten times the inputs of the test command; `npm run fuzz -- 500000 7` for as many from another seed, on any system.
import { startVitest } from 'vitest/node'

const [runs = '100000', seed] = process.argv.slice(2)
if (![runs, seed ?? '0'].every((word) => /^\d{1,9}$/.test(word)))
  throw new Error('Give whole numbers: npm run fuzz -- INPUTS SEED')
process.env.FUZZ_RUNS = runs
if (seed !== undefined) process.env.FUZZ_SEED = seed
const vitest = await startVitest('test', ['tests/fuzz'], { config: 'tests/vitest.config.ts', watch: false })
await vitest.close()
