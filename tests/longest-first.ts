// Takes the kinds of test one after the other, and of each kind the files that take longest first, so that no worker sits idle while
// the other ends with one of them.
import { BaseSequencer, type TestSpecification } from 'vitest/node'

/**
 * Files with a process of their own come first: a process that files share ends with the first of another project, and would load
 * the house once more after it. The many short ones come last and fill both workers to the end.
 */
const kindsInOrder = ['faults', 'fuzz', 'browser', 'outside', '']

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
  'fuzz/forms',
  'fuzz/every-choice',
  'fuzz/every-farm',
  'fuzz/backups',
  'fuzz/plans',
  'outside/chance-history',
  'outside/chance-exact',
  'outside/question-answers',
  'outside/withdrawal-history',
  'runway/plain-month',
  'web/far-days',
  'web/plan-forms',
  'web/one-start',
  'solve/contradictions',
  'solve/coarse-to-fine',
  'solve/questions',
  'web/one-projection',
  'solve/ways-and-risks',
  'solve/brute-force',
  'sample/sample',
  'web/chance',
  'web/farm',
  'solve/running-short',
  'solve/equal-seeds',
  'web/many-tax-payments',
  'runway/always-true',
  'chance/pool',
  'chance/command-line',
  'web/first-run',
  'web/closed-years',
  'web/access',
  'web/serve',
  'solve/answers-hold',
]

const place = ({ moduleId }: TestSpecification): number => {
  const at = long.findIndex((name) => moduleId.includes(`tests/${name}.test.`))
  return at < 0 ? long.length : at
}

const kind = ({ moduleId }: TestSpecification): number =>
  kindsInOrder.findIndex((name) => moduleId.includes(`/tests/${name}`))

const sharesProcess = ({ project }: TestSpecification): number => (project.config.isolate ? 0 : 1)

export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files)
    return sorted.toSorted(
      (a, b) => sharesProcess(a) - sharesProcess(b) || kind(a) - kind(b) || place(a) - place(b),
    )
  }
}
