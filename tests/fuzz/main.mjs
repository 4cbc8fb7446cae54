// `npm run fuzz`: 100,000 inputs each, 200 plans in the second writing, hundreds to thousands where something holds for every plan, and
// all of the simulations that are held against exact results;
// `npm run fuzz -- 500000 7` for as many from another seed. `npm run fuzz -- plans` holds all of it on the same 300 plans, of a seed that
// changes each time and is printed; `npm run fuzz -- plans 40 7` on as many of that one. `npm run fuzz -- farms` opens the farm's pages on
// 100 random farms and on what comes of them by the options of their forms, each option on 15 of them or as large a part of those that offer it; `npm run fuzz -- farms 5 7` on as
// many of that seed; with `--every` each option on every farm, for hours. `npm run fuzz -- questions` asks every question of 100 random plans
// and the sample, and holds the answers against the plan's own simulations and against brute force; `npm run fuzz -- questions 20 7` of as
// many of that seed. `npm run fuzz -- tables` takes all of what the test command draws from published tables, links and forms, as CI does.
import { startVitest } from 'vitest/node'

const onRandomPlans = ['plain-month', 'always-true', 'net-draws', 'trace'].map(
  (name) => `tests/runway/${name}.test.ts`,
)
const others = [
  'db/ledger-properties',
  'db/household-months',
  'ledger/statements/csv-cells',
  'outside/chance-exact',
  'outside/chance-history',
  'outside/withdrawal-history',
  'solve/coarse-to-fine',
  'web/far-days',
].map((name) => `tests/${name}.test.ts`)
const usually = { plans: '300', farms: '100', questions: '100', tables: '1500' }
const kind = Object.hasOwn(usually, process.argv[2] ?? '') ? process.argv[2] : null
const isEvery = process.argv.includes('--every')
const [inputs = kind ? usually[kind] : '100000', seed] = process.argv
  .slice(kind ? 3 : 2)
  .filter((word) => word !== '--every')
const isSeed = /^\d{1,9}$/.test(seed ?? '0')
/** Each time another one, unless it is asked for. */
const ownSeed = seed ?? String(Date.now() % 1_000_000_000)
const start = async (files) => {
  const vitest = await startVitest('test', files, { config: 'tests/vitest.config.ts', watch: false })
  await vitest.close()
}
if (kind === 'plans' && /^\d{1,5}$/.test(inputs) && isSeed) {
  process.env.RANDOM_PLANS = inputs
  process.env.RANDOM_PLANS_SEED = ownSeed
  console.log(`${inputs} random plans of seed ${ownSeed}`)
  await start(['tests/runway/random-plans.test.ts'])
} else if (kind === 'farms' && /^\d{1,4}$/.test(inputs) && isSeed) {
  process.env.FUZZ_FARMS = inputs
  process.env.FUZZ_SEED = ownSeed
  if (isEvery) process.env.FUZZ_OPTION_FARMS = inputs
  console.log(`${inputs} random farms of seed ${ownSeed}`)
  await start(['tests/fuzz/every-farm.test.ts'])
} else if (kind === 'questions' && /^\d{1,4}$/.test(inputs) && isSeed) {
  process.env.QUESTION_PLANS = inputs
  process.env.FUZZ_SEED = ownSeed
  console.log(`Questions of ${inputs} random plans of seed ${ownSeed}`)
  await start(['contradictions', 'brute-force'].map((name) => `tests/solve/${name}.test.ts`))
} else if (kind === 'tables' && /^\d{4,6}$/.test(inputs) && isSeed) {
  process.env.FUZZ_RUNS = inputs
  if (seed !== undefined) process.env.FUZZ_SEED = seed
  await start(['tests/fuzz/forms.test.ts', ...others])
} else if (kind === null && /^\d{4,9}$/.test(inputs) && isSeed) {
  process.env.FUZZ_RUNS = inputs
  if (seed !== undefined) process.env.FUZZ_SEED = seed
  await start(['tests/fuzz', ...onRandomPlans, ...others])
} else {
  console.error(
    'Give whole numbers, 1000 inputs or more: npm run fuzz -- INPUTS SEED, npm run fuzz -- plans COUNT SEED, npm run fuzz -- questions COUNT SEED, npm run fuzz -- tables INPUTS SEED, or npm run fuzz -- farms COUNT SEED [--every]',
  )
  process.exitCode = 2
}
