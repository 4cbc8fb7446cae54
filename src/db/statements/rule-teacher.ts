// What the choices of one form teach: rules for the next lines of a payee, what they were before, and how often each was used.
import { findBatch } from '#db/notebook/batch-store.ts'
import type { Act } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { learnFrom, type SortingRule, type SortingTarget } from '#ledger/statements/sorting.ts'
import type { SplitShare } from '#ledger/statements/split-shares.ts'
import { textOfLine } from '#ledger/statements/statement.ts'
import { cents } from '#money/cents.ts'
import type { TaughtRule } from './sorted.ts'
import type { WaitingLine } from './sorting-desk.ts'
import { countRuleUses, keepSplit, listRules, rememberChoice } from './sorting-rule-store.ts'

/** Call it inside a write, and `finish` once at its end. */
export class RuleTeacher {
  readonly taught: TaughtRule[] = []
  learned = 0
  readonly #books: Books
  readonly #act: Act
  readonly #isOn: boolean
  readonly #uses = new Map<string, number>()
  #rules: SortingRule[] | null = null

  constructor(books: Books, act: Act, isOn: boolean) {
    this.#books = books
    this.#act = act
    this.#isOn = isOn
  }

  /** The rule that the choice made, changed or used; null when it teaches nothing. Of a batch, which ends, its enterprise is learned. */
  learnFrom(line: WaitingLine, chosen: SortingTarget, batchId: string | null = null): string | null {
    if (!this.#isOn) return null
    const batch = batchId === null ? undefined : findBatch(this.#books, batchId)
    const target =
      batch && chosen.kind === 'account' && chosen.enterpriseId === null
        ? { ...chosen, enterpriseId: batch.enterpriseId }
        : chosen
    this.#rules ??= listRules(this.#books)
    const learned = learnFrom(this.#rules, { ...line, text: textOfLine(line) }, target)
    if (learned.kind === 'nothing') return null
    const ruleId = learned.kind === 'new' ? this.#newId(line) : learned.ruleId
    if (learned.kind !== 'used') {
      const before = this.#rules.find(({ id }) => id === ruleId)?.target ?? null
      const rule = rememberChoice(this.#books, this.#act.at, ruleId, learned)
      this.learned += rule ? 1 : 0
      if (!this.taught.some((one) => one.ruleId === ruleId)) this.taught.push({ ruleId, before })
      this.#rules = rule
        ? [...this.#rules, rule]
        : this.#rules.map((each) =>
            each.id === ruleId ? { ...each, target, lastUsedAt: this.#act.at } : each,
          )
    }
    this.used(ruleId)
    return ruleId
  }

  /** Nothing is kept where it was not asked for, or the line names no one. */
  keepSplit(
    line: WaitingLine,
    shares: readonly SplitShare[] | undefined,
    isOfAmount: boolean,
  ): string | null {
    if (!shares) return null
    const taught = keepSplit(
      this.#books,
      this.#act.at,
      this.#newId(line),
      { ...line, text: textOfLine(line) },
      shares,
      isOfAmount ? cents(Math.abs(line.amount)) : null,
    )
    if (taught === null) return null
    this.learned += 1
    this.taught.push(taught)
    return taught.ruleId
  }

  used(ruleId: string): void {
    this.#uses.set(ruleId, (this.#uses.get(ruleId) ?? 0) + 1)
  }

  finish(): void {
    countRuleUses(this.#books, this.#act.at, this.#uses)
  }

  #newId(line: WaitingLine): string {
    return `${this.#act.formId}.${line.id}.rule`
  }
}
