// `npm run pages`: the files in a browser, with every page walked and all cases of a kind, of which `npm test` draws a few.
import { startVitest } from 'vitest/node'

// All of them: see tests/fuzz/batches.ts.
process.env.FUZZ_RUNS = '1500'
const vitest = await startVitest('test', ['tests/browser'], {
  config: 'tests/vitest.config.ts',
  watch: false,
})
await vitest.close()
