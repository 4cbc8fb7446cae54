// `npm run kills`: 295 hard kills among posts, imports, closings, restores, migrations, backups and receipts.
import { startVitest } from 'vitest/node'

process.env.DOORYARD_KILLS = 'all'
const vitest = await startVitest('test', ['tests/faults'], {
  config: 'tests/vitest.config.ts',
  project: ['faults'],
  watch: false,
})
await vitest.close()
