// `npm run kills`: 295 hard kills among posts, imports, closings, restores, migrations, backups and receipts.
import { startVitest } from 'vitest/node'

// All of them: see tests/fuzz/batches.ts.
process.env.FUZZ_RUNS = '1500'
const vitest = await startVitest('test', ['tests/faults'], {
  config: 'tests/vitest.config.ts',
  project: ['faults'],
  watch: false,
})
await vitest.close()
