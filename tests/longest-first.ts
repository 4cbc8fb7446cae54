// Takes the kinds of test one after the other, so that a process that has loaded the house for one goes on to the next, and of each
// kind the files that take longest first, so that no worker sits idle while the other ends with one of them.
import { BaseSequencer, type TestSpecification } from 'vitest/node'

/** Vitest knows durations only from runs before on the same machine; a new clone has none. Longest first. */
const long = [
  'browser/every-page',
  'browser/phone',
  'browser/change-entries',
  'browser/month',
  'browser/statements',
  // Waits more than it works: goes well with the browser's own processes.
  'faults/soak',
  'faults/kill-keeping',
  'faults/backup-kill',
  'faults/kill',
  'fuzz/every-choice',
  'fuzz/every-farm',
  'fuzz/forms',
  'fuzz/backups',
  'fuzz/plans',
  'outside/chance-exact',
  'outside/chance-history',
  'outside/withdrawal-history',
  'runway/plain-month',
  'solve/contradictions',
  'solve/brute-force',
  'solve/questions',
  'web/far-days',
  'web/one-start',
  'web/plan-forms',
  'runway/always-true',
  'web/chance',
  'chance/pool',
  'chance/command-line',
  'solve/ways-and-risks',
]

const place = ({ moduleId }: TestSpecification): number => {
  const at = long.findIndex((name) => moduleId.includes(`tests/${name}.test.`))
  return at < 0 ? long.length : at
}

export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files)
    const kinds = [...new Set(sorted.map(({ project }) => project.name))]
    const kind = ({ project }: TestSpecification) => kinds.indexOf(project.name)
    return sorted.toSorted((a, b) => kind(a) - kind(b) || place(a) - place(b))
  }
}
