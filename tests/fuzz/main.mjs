// `npm run fuzz`: 100,000 inputs each, 200 plans in the second writing, hundreds to thousands where something holds for every plan;
// `npm run fuzz -- 500000 7` for as many from another seed. `npm run fuzz -- plans` holds all of it on the same 300 plans, of a seed that
// changes each time and is printed; `npm run fuzz -- plans 40 7` on as many of that one. `npm run fuzz -- farms` makes every choice of the
// farm's forms on each of 100 random farms, for hours (a farm takes a minute or more); `npm run fuzz -- farms 5 7` on as many of that seed.
import { startVitest } from 'vitest/node'

const onRandomPlans = ['plain-month', 'always-true', 'net-draws', 'trace'].map(
  (name) => `tests/runway/${name}.test.ts`,
)
const isPlans = process.argv[2] === 'plans'
const isFarms = process.argv[2] === 'farms'
const usual = isPlans ? '300' : isFarms ? '100' : '100000'
const [inputs = usual, seed] = process.argv.slice(isPlans || isFarms ? 3 : 2)
const start = async (files, only = {}) => {
  const vitest = await startVitest('test', files, { config: 'tests/vitest.config.ts', watch: false, ...only })
  await vitest.close()
}
if (isPlans && /^\d{1,5}$/.test(inputs) && /^\d{1,9}$/.test(seed ?? '0')) {
  process.env.RANDOM_PLANS = inputs
  process.env.RANDOM_PLANS_SEED = seed ?? String(Date.now() % 1_000_000_000)
  console.log(`${inputs} random plans of seed ${process.env.RANDOM_PLANS_SEED}`)
  await start(['tests/runway/random-plans.test.ts'])
} else if (isFarms && /^\d{1,4}$/.test(inputs) && /^\d{1,9}$/.test(seed ?? '0')) {
  process.env.FUZZ_FARMS = inputs
  process.env.FUZZ_SEED = seed ?? String(Date.now() % 1_000_000_000)
  console.log(`${inputs} random farms of seed ${process.env.FUZZ_SEED}`)
  await start(['tests/fuzz/every-choice.test.ts'], { testNamePattern: 'whatever the farm' })
} else if (/^\d{4,9}$/.test(inputs) && /^\d{1,9}$/.test(seed ?? '0')) {
  process.env.FUZZ_RUNS = inputs
  if (seed !== undefined) process.env.FUZZ_SEED = seed
  await start(['tests/fuzz', ...onRandomPlans])
} else {
  console.error(
    'Give whole numbers, 1000 inputs or more: npm run fuzz -- INPUTS SEED, npm run fuzz -- plans COUNT SEED, or npm run fuzz -- farms COUNT SEED',
  )
  process.exitCode = 2
}
