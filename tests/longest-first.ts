// Begins with the test files that take longest, so that no worker sits idle while the other ends with one of them.
import { BaseSequencer, type TestSpecification } from 'vitest/node'

/** Vitest knows durations only from runs before on the same machine; a new clone has none. Longest first. */
const long = [
  'browser/every-page',
  // Waits more than it works: goes well with the browser's own processes.
  'faults/soak',
  'fuzz/forms',
  'fuzz/every-choice',
  'fuzz/plans',
  'fuzz/backups',
  'runway/plain-month',
  'outside/withdrawal-history',
  'faults/kill-keeping',
  'browser/change-entries',
  'runway/always-true',
  'faults/backup-kill',
  'browser/month',
  'web/far-days',
  'fuzz/statements',
  'browser/statements',
  'faults/kill',
]

const place = ({ moduleId }: TestSpecification): number => {
  const at = long.findIndex((name) => moduleId.includes(`tests/${name}.test.`))
  return at < 0 ? long.length : at
}

export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files)
    return sorted.toSorted((a, b) => place(a) - place(b))
  }
}
