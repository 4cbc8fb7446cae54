// Waiting transactions of one payee, account and direction for which nothing sure is proposed: where the first goes, all may go.
import type { DeskLine } from '#db/statements/sorting-desk.ts'
import { namesNoOne, plainPayee } from '#ledger/statements/payee-text.ts'
import { textOfLine } from '#ledger/statements/statement.ts'

/** An address and a form have their bounds. */
const mostAlike = 200

/** By the id of the first line of a payee, the ids of the others. */
export const alikeLines = (lines: readonly DeskLine[]): Map<number, number[]> => {
  const groups = new Map<string, number[]>()
  for (const { line, proposal } of lines) {
    const isOpen = proposal === null || (proposal.kind === 'rule' && !proposal.isSure)
    const payee = plainPayee(textOfLine(line))
    if (line.state === 'doubtful' || !isOpen || namesNoOne(payee)) continue
    const key = `${line.accountId}|${line.amount < 0}|${payee}`
    const ids = groups.get(key)
    if (ids) ids.push(line.id)
    else groups.set(key, [line.id])
  }
  return new Map(
    [...groups.values()]
      .filter((ids) => ids.length > 1)
      .map(([first, ...others]) => [first!, others.slice(0, mostAlike)]),
  )
}
