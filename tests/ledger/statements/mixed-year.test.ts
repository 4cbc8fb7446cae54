// A year of mixed payees, sorted month after month: how often what is proposed is right, and how seldom it is wrong though ticked.
import { expect, test } from 'vitest'
import type { EarlierLine } from '#ledger/statements/habits.ts'
import { suggester } from '#ledger/statements/proposals.ts'
import { learnFrom, type SortingRule, type SortingTarget } from '#ledger/statements/sorting.ts'
import { cents } from '#money/cents.ts'
import { allKnowing, type MadeLine, mixedYear } from './mixed-year.ts'

/** The second seed is kept from whoever mends the proposer: it runs under CI=1, or as MIXED_YEAR_SEED=… */
const seeds = [
  1,
  ...(process.env.CI ? [20_261] : []),
  ...(process.env.MIXED_YEAR_SEED ? [Number(process.env.MIXED_YEAR_SEED)] : []),
]

test.for(seeds)(
  'seed %i: in the second half four of five are right, and two in a hundred at most wrong but checked',
  (seed) => {
    const { right, known, wrongTicked, ticked, lines } = secondHalf(mixedYear(seed))
    console.info(
      `mixed year ${seed}: ${share(right, lines)} right (all-knowing: ${share(known, lines)}), ${share(ticked, lines)} ticked, ${share(wrongTicked, lines)} wrong but checked`,
    )
    expect(lines).toBe(750)
    expect(right / lines).toBeGreaterThanOrEqual(0.8)
    expect(wrongTicked / lines).toBeLessThanOrEqual(0.02)
  },
)

const share = (part: number, whole: number) => `${((100 * part) / whole).toFixed(1)} %`

/** Each month is proposed as a whole and then sorted as it truly is, which is all that the proposer learns from. */
const secondHalf = (year: readonly MadeLine[][]) => {
  const rules: SortingRule[] = []
  const history: EarlierLine[] = []
  const count = { right: 0, known: 0, wrongTicked: 0, ticked: 0, lines: 0 }
  year.forEach((month, index) => {
    const suggest = suggester(rules, history)
    const lines = month.map((made) => ({ made, line: lineOf(made) }))
    for (const { made, line } of lines) {
      if (index < 6) break
      const said = suggest(line)
      const isRight = said !== null && targetKey(said.proposal.target) === targetKey(targetOf(made))
      count.lines += 1
      if (isRight) count.right += 1
      if (allKnowing(made) === made.truth) count.known += 1
      if (said?.isSure) count.ticked += 1
      if (said?.isSure && !isRight) count.wrongTicked += 1
    }
    for (const { made, line } of lines) {
      learn(rules, line, targetOf(made))
      history.unshift({ ...line, went: targetOf(made) })
    }
  })
  return count
}

const lineOf = ({ account, day, cents: amount, text }: MadeLine) => ({
  accountId: account === 'Farm checking' ? 1 : 2,
  day,
  amount: cents(amount),
  text,
})

const names: string[] = []
const targetOf = ({ truth }: MadeLine): SortingTarget => {
  if (!names.includes(truth)) names.push(truth)
  return { kind: 'account', accountId: 10 + names.indexOf(truth), enterpriseId: null }
}
const targetKey = (target: SortingTarget): string => JSON.stringify(target)

const learn = (rules: SortingRule[], line: ReturnType<typeof lineOf>, target: SortingTarget): void => {
  const learned = learnFrom(rules, line, target)
  if (learned.kind === 'new') rules.push({ ...learned.rule, id: `r${rules.length}`, lastUsedAt: line.day })
  if (learned.kind === 'changed') rules.find(({ id }) => id === learned.ruleId)!.target = learned.target
}
