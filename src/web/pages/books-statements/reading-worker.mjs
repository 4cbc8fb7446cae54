// The worker's doorway: a worker thread cannot load TypeScript by itself, so the loader is registered here first.
import { register } from 'tsx/esm/api'

register()
export const { openInSlices, readCsvInSlices, fitGuessIn } = await import(
  '#ledger/statements/reading/reading-work.ts'
)
