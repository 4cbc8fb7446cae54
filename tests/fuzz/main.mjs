// `npm run fuzz`: 100,000 inputs each, 200 plans in the second writing, hundreds to thousands where something holds for every plan;
// `npm run fuzz -- 500000 7` for as many from another seed.
import { startVitest } from 'vitest/node'

const onRandomPlans = ['plain-month', 'always-true', 'net-draws', 'trace'].map(
  (name) => `tests/runway/${name}.test.ts`,
)
const [inputs = '100000', seed] = process.argv.slice(2)
if (/^\d{4,9}$/.test(inputs) && /^\d{1,9}$/.test(seed ?? '0')) {
  process.env.FUZZ_RUNS = inputs
  if (seed !== undefined) process.env.FUZZ_SEED = seed
  const vitest = await startVitest('test', ['tests/fuzz', ...onRandomPlans], {
    config: 'tests/vitest.config.ts',
    watch: false,
  })
  await vitest.close()
} else {
  console.error('Give whole numbers, 1000 inputs or more: npm run fuzz -- INPUTS SEED')
  process.exitCode = 2
}
