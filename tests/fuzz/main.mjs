// `npm run fuzz`: 100,000 inputs each, 200 plans in the second writing, hundreds to thousands where something holds for every plan;
// `npm run fuzz -- 500000 7` for as many from another seed. `npm run fuzz -- plans` holds all of it on the same 300 plans, of a seed that
// changes each time and is printed; `npm run fuzz -- plans 40 7` on as many of that one. `npm run fuzz -- farms` opens the farm's pages on
// 100 random farms and on what comes of them by the options of their forms, each option on 15 of them or as large a part of those that offer it; `npm run fuzz -- farms 5 7` on as
// many of that seed; with `--every` each option on every farm, for hours.
import { startVitest } from 'vitest/node'

const onRandomPlans = ['plain-month', 'always-true', 'net-draws', 'trace'].map(
  (name) => `tests/runway/${name}.test.ts`,
)
const isPlans = process.argv[2] === 'plans'
const isFarms = process.argv[2] === 'farms'
const usual = isPlans ? '300' : isFarms ? '100' : '100000'
const isEvery = process.argv.includes('--every')
const [inputs = usual, seed] = process.argv
  .slice(isPlans || isFarms ? 3 : 2)
  .filter((word) => word !== '--every')
const start = async (files) => {
  const vitest = await startVitest('test', files, { config: 'tests/vitest.config.ts', watch: false })
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
  if (isEvery) process.env.FUZZ_OPTION_FARMS = inputs
  console.log(`${inputs} random farms of seed ${process.env.FUZZ_SEED}`)
  await start(['tests/fuzz/every-farm.test.ts'])
} else if (/^\d{4,9}$/.test(inputs) && /^\d{1,9}$/.test(seed ?? '0')) {
  process.env.FUZZ_RUNS = inputs
  if (seed !== undefined) process.env.FUZZ_SEED = seed
  await start(['tests/fuzz', ...onRandomPlans])
} else {
  console.error(
    'Give whole numbers, 1000 inputs or more: npm run fuzz -- INPUTS SEED, npm run fuzz -- plans COUNT SEED, or npm run fuzz -- farms COUNT SEED [--every]',
  )
  process.exitCode = 2
}
