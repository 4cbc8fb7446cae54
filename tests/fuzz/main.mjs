// `npm run fuzz`: 100,000 inputs each, 200 plans in the second writing, hundreds to thousands where something holds for every plan;
// `npm run fuzz -- 500000 7` for as many from another seed. `npm run fuzz -- plans` holds all of it on the same 300 plans, of a seed that
// changes each time and is printed; `npm run fuzz -- plans 40 7` on as many of that one.
import { startVitest } from 'vitest/node'

const onRandomPlans = ['plain-month', 'always-true', 'net-draws', 'trace'].map(
  (name) => `tests/runway/${name}.test.ts`,
)
const isPlans = process.argv[2] === 'plans'
const [inputs = isPlans ? '300' : '100000', seed] = process.argv.slice(isPlans ? 3 : 2)
const start = async (files) => {
  const vitest = await startVitest('test', files, { config: 'tests/vitest.config.ts', watch: false })
  await vitest.close()
}
if (isPlans && /^\d{1,5}$/.test(inputs) && /^\d{1,9}$/.test(seed ?? '0')) {
  process.env.RANDOM_PLANS = inputs
  process.env.RANDOM_PLANS_SEED = seed ?? String(Date.now() % 1_000_000_000)
  console.log(`${inputs} random plans of seed ${process.env.RANDOM_PLANS_SEED}`)
  await start(['tests/runway/random-plans.test.ts'])
} else if (/^\d{4,9}$/.test(inputs) && /^\d{1,9}$/.test(seed ?? '0')) {
  process.env.FUZZ_RUNS = inputs
  if (seed !== undefined) process.env.FUZZ_SEED = seed
  await start(['tests/fuzz', ...onRandomPlans])
} else {
  console.error(
    'Give whole numbers, 1000 inputs or more: npm run fuzz -- INPUTS SEED, or npm run fuzz -- plans COUNT SEED',
  )
  process.exitCode = 2
}
