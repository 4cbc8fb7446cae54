// What the desk proposes for a line by rules and by the habits of its payee: a rule written by hand says all, a learned one only whose habits.

import { cents } from '#money/cents.ts'
import { type EarlierLine, type Habit, habitOf } from './habits.ts'
import { plainPayee } from './payee-text.ts'
import { type Proposal, proposer, type SortableLine, type SortingRule } from './sorting.ts'
import { laidOver, type SplitShare } from './split-shares.ts'

export interface Suggestion {
  proposal: Proposal
  /** Of the payee, where the rule was learned. */
  habit: Habit | null
  /** Where a rule says into which parts it goes. */
  split: readonly SplitShare[] | null
  /** May be ticked before a person has looked. */
  isSure: boolean
}

type Line = SortableLine & Pick<EarlierLine, 'day'>

/** A function from a line to what is proposed for it, or null. `history` is newest first. */
export const suggester = (
  rules: readonly SortingRule[],
  history: readonly EarlierLine[],
): ((line: Line) => Suggestion | null) => {
  const propose = proposer(rules)
  const byId = new Map(rules.map((rule) => [rule.id, rule]))
  const habits = habitsOf(history)
  return (line) => {
    const proposal = propose(line)
    if (!proposal) return null
    const rule = byId.get(proposal.ruleId)!
    const split = rule.split ?? null
    const fits = split === null || laidOver(split, cents(Math.abs(line.amount))) !== null
    if (!rule.learned) return { proposal, habit: null, split, isSure: fits }
    const habit = habits(rule)?.(line) ?? null
    const isKnown = proposal.how === 'equals'
    const target = habit && (isKnown || isOfOther(habit.target, line)) ? habit.target : proposal.target
    return {
      proposal: { ...proposal, target },
      habit,
      split: null,
      isSure: isKnown && !habit?.isVaried && !habit?.isMuch,
    }
  }
}

/** Something bought or sold on another account may be so here; a move of money is not the same one here. */
const isOfOther = (target: Proposal['target'], line: Line): boolean =>
  target.kind === 'account' && target.accountId !== line.accountId

/** By the account, direction and payee that a rule was learned for; each worked out when it is first asked for. */
const habitsOf = (history: readonly EarlierLine[]) => {
  const lines = new Map<string, EarlierLine[]>()
  for (const line of history) {
    const key = `${line.accountId}|${line.amount < 0 ? 'out' : 'in'}|${plainPayee(line.text)}`
    const known = lines.get(key)
    if (known) known.push(line)
    else lines.set(key, [line])
  }
  const made = new Map<string, HabitOf>()
  return (rule: SortingRule): HabitOf | null => {
    const key = `${rule.onAccountId}|${rule.sign}|${rule.matchText}`
    const earlier = lines.get(key)
    if (!earlier) return null
    const habit = made.get(key) ?? habitKept(earlier)
    made.set(key, habit)
    return habit
  }
}

type HabitOf = ReturnType<typeof habitOf>

/** Told once from the very same lines; kept for as long as the newest of them is. */
const habitKept = (earlier: readonly EarlierLine[]): HabitOf => {
  const before = keptHabits.get(earlier[0]!)
  if (before?.lines.length === earlier.length && earlier.every((line, at) => line === before.lines[at]))
    return before.habit
  const habit = habitOf(earlier)
  keptHabits.set(earlier[0]!, { lines: earlier, habit })
  return habit
}

const keptHabits = new WeakMap<EarlierLine, { lines: readonly EarlierLine[]; habit: HabitOf }>()
