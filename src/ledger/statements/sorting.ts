// Proposes where a statement line belongs, by rules learned from earlier choices or written by hand. Nothing is applied here.
import type { CrossingKind } from '#ledger/crossing-kind.ts'
import type { Cents } from '#money/cents.ts'
import { namesNoOne, plainPayee, wordsOf } from './payee-text.ts'
import type { SplitShare } from './split-shares.ts'

/** An account on any side (a transfer when it is another bank account), or a crossing with the account on the far side. */
export type SortingTarget =
  | { kind: 'account'; accountId: number; enterpriseId: string | null }
  | { kind: 'crossing'; crossingKind: CrossingKind; otherAccountId: number }

export type MatchKind = 'equals' | 'starts' | 'contains'

export interface SortingRule {
  id: string
  matchKind: MatchKind
  /** As `plainPayee` writes it. For `contains`, words in any order. */
  matchText: string
  /** Only lines of this bank account; any when null. */
  onAccountId: number | null
  sign: 'in' | 'out' | null
  /** Bounds on the size of the amount, without sign. */
  minimum: Cents | null
  maximum: Cents | null
  target: SortingTarget
  /** A bill that is always split the same way; its target is then the account of the first part. */
  split?: readonly SplitShare[] | null
  /** Above 0 it goes before every rule of lower priority. */
  priority: number
  learned: boolean
  /** ISO instant, for the later choice to win among equals. */
  lastUsedAt: string | null
}

export interface SortableLine {
  accountId: number
  amount: Cents
  /** Payee and memo as `textOfLine` gives them. */
  text: string
}

export interface Proposal {
  ruleId: string
  target: SortingTarget
  /** Higher is surer; only for comparing. */
  score: number
  /** `elsewhere`: this payee, sorted on another account. `back`: it was paid before, and now pays. */
  how: MatchKind | 'elsewhere' | 'back' | 'similar'
}

/**
 * A function from a line to the best proposal, or null. Exact goes before prefix, prefix before words; then the rule
 * that says more about the line, then the later choice. Texts are scored once each, so that a long file stays quick.
 */
export const proposer = (rules: readonly SortingRule[]): ((line: SortableLine) => Proposal | null) => {
  const known = new Map<string, Scored[]>()
  const rulesFor = byWords(rules)
  return (line) => {
    const text = plainPayee(line.text)
    let scored = known.get(text)
    if (!scored) {
      scored = scoreText(rulesFor(wordsOf(text)), text)
      known.set(text, scored)
    }
    const best = scored.find(({ rule, how }) =>
      isAside(how) ? admitsAside(rule, how, line) : admits(rule, line),
    )
    return best ? { ruleId: best.rule.id, target: best.rule.target, score: best.score, how: best.how } : null
  }
}

export type Learned =
  | { kind: 'nothing' }
  | { kind: 'used'; ruleId: string }
  | { kind: 'changed'; ruleId: string; target: SortingTarget }
  | { kind: 'new'; rule: Omit<SortingRule, 'id' | 'lastUsedAt'> }

/** What a choice teaches: a rule for this text on this account and direction, or a change of the one already learned. */
export const learnFrom = (
  rules: readonly SortingRule[],
  line: SortableLine,
  target: SortingTarget,
): Learned => {
  const text = plainPayee(line.text)
  if (namesNoOne(text)) return { kind: 'nothing' }
  const sign = line.amount < 0 ? 'out' : 'in'
  const earlier = rules.find(
    (rule) =>
      rule.learned && rule.matchText === text && rule.onAccountId === line.accountId && rule.sign === sign,
  )
  if (earlier) {
    return sameTarget(earlier.target, target)
      ? { kind: 'used', ruleId: earlier.id }
      : { kind: 'changed', ruleId: earlier.id, target }
  }
  const covering = proposer(rules.filter((rule) => !rule.learned))(line)
  if (covering && sameTarget(covering.target, target)) return { kind: 'used', ruleId: covering.ruleId }
  return {
    kind: 'new',
    rule: {
      matchKind: 'equals',
      matchText: text,
      onAccountId: line.accountId,
      sign,
      minimum: null,
      maximum: null,
      target,
      priority: 0,
      learned: true,
    },
  }
}

export const sameTarget = (one: SortingTarget, other: SortingTarget): boolean => {
  if (one.kind === 'account')
    return (
      other.kind === 'account' && one.accountId === other.accountId && one.enterpriseId === other.enterpriseId
    )
  return (
    other.kind === 'crossing' &&
    one.crossingKind === other.crossingKind &&
    one.otherAccountId === other.otherAccountId
  )
}

interface Scored {
  rule: SortingRule
  score: number
  how: Proposal['how']
}

/** The rules that share a word with a text, each with its words: no other can match it. */
const byWords = (
  rules: readonly SortingRule[],
): ((words: readonly string[]) => ReadonlyMap<SortingRule, readonly string[]>) => {
  const wordsOfRules = new Map(rules.map((rule) => [rule, wordsOf(rule.matchText)]))
  const withWord = new Map<string, SortingRule[]>()
  for (const [rule, words] of wordsOfRules)
    for (const word of new Set(words)) {
      const known = withWord.get(word)
      if (known) known.push(rule)
      else withWord.set(word, [rule])
    }
  return (words) =>
    new Map(words.flatMap((word) => withWord.get(word) ?? []).map((rule) => [rule, wordsOfRules.get(rule)!]))
}

const scoreText = (rules: ReadonlyMap<SortingRule, readonly string[]>, text: string): Scored[] => {
  const words = wordsOf(text)
  return [...rules]
    .flatMap(([rule, ruleWords]): Scored[] => {
      const match = matchOf(rule, ruleWords, text, words)
      if (!match) return []
      const scored = { rule, how: match.how, score: match.score + detail(rule) }
      if (!rule.learned || match.how !== 'equals') return [scored]
      const aside = (how: 'elsewhere' | 'back', score: number) => ({ rule, how, score })
      return [scored, aside('elsewhere', 900), aside('back', 800)]
    })
    .sort(
      (one, other) =>
        other.score - one.score ||
        (other.rule.lastUsedAt ?? '').localeCompare(one.rule.lastUsedAt ?? '') ||
        one.rule.id.localeCompare(other.rule.id),
    )
}

/** Exact 3000, prefix 2000, all words 1000, a learned text that shares most words 500; longer texts say more. */
const matchOf = (
  rule: SortingRule,
  ruleWords: readonly string[],
  text: string,
  words: readonly string[],
): { score: number; how: Proposal['how'] } | null => {
  const length = Math.min(rule.matchText.length, 200)
  if (rule.matchText === text && text !== '') return { score: 3000 + length, how: 'equals' }
  if (rule.matchKind === 'starts')
    return startsWithWords(text, rule.matchText) ? { score: 2000 + length, how: 'starts' } : null
  if (rule.matchKind === 'contains')
    return ruleWords.every((word) => words.includes(word)) ? { score: 1000 + length, how: 'contains' } : null
  if (!rule.learned) return null
  const shared = sharedWords(ruleWords, words)
  return shared >= 0.5 ? { score: 500 + Math.round(shared * 100), how: 'similar' } : null
}

const startsWithWords = (text: string, start: string): boolean =>
  text === start || text.startsWith(`${start} `)

/** Share of words in common among all of both, 0 to 1. Two texts must share at least two words, or all of them. */
const sharedWords = (one: readonly string[], other: readonly string[]): number => {
  const otherSet = new Set(other)
  const oneSet = new Set(one)
  let common = 0
  for (const word of oneSet) if (otherSet.has(word)) common += 1
  const all = oneSet.size + otherSet.size - common
  return all === 0 || (common < 2 && common < all) ? 0 : common / all
}

const detail = (rule: SortingRule): number =>
  rule.priority * 10_000 +
  (rule.learned ? 0 : 60) +
  (rule.onAccountId === null ? 0 : 30) +
  (rule.minimum === null && rule.maximum === null ? 0 : 40) +
  (rule.sign === null ? 0 : 10)

const isAside = (how: Proposal['how']): how is 'elsewhere' | 'back' => how === 'elsewhere' || how === 'back'

/** A payee learned on one account is known on another one, and by what it gives back: but only as one to check. */
const admitsAside = (rule: SortingRule, how: 'elsewhere' | 'back', line: SortableLine): boolean => {
  if (rule.target.kind !== 'account' || rule.target.accountId === line.accountId) return false
  const sameWay = rule.sign === (line.amount < 0 ? 'out' : 'in')
  return how === 'elsewhere'
    ? sameWay && rule.onAccountId !== line.accountId
    : !sameWay && rule.onAccountId === line.accountId
}

const admits = (rule: SortingRule, line: SortableLine): boolean => {
  const size = Math.abs(line.amount)
  return (
    (rule.onAccountId === null || rule.onAccountId === line.accountId) &&
    (rule.sign === null || rule.sign === (line.amount < 0 ? 'out' : 'in')) &&
    (rule.minimum === null || size >= rule.minimum) &&
    (rule.maximum === null || size <= rule.maximum)
  )
}
