// Whether the signs of a statement can be right: by its running balance, by the kind of its account, by what its words say.
import type { Account } from '#ledger/account.ts'
import { balanceSays, balanceSteps } from './running-balance.ts'
import { type StatementLine, textOfLine } from './statement.ts'

/** `null` when nothing speaks against the signs as they are read; else why they look turned. */
export const signDoubt = (
  lines: readonly StatementLine[],
  account: Pick<Account, 'kind' | 'name'>,
): string | null => {
  const isOwed = account.kind === 'liability'
  const balance = balanceSays(balanceSteps(lines))
  if (balance !== 'nothing') {
    // A card's balance is mostly written as what is owed, so that it grows as money goes out.
    const growsWithDebt = isOwed && lines.filter((line) => (line.balance ?? 0) > 0).length * 2 > lines.length
    return (balance === 'turned') === growsWithDebt
      ? null
      : 'The balance in the file goes down where money would come in, and up where it would go out.'
  }
  const votes = lines.map((line) => vote(textOfLine(line), line.amount, isOwed))
  const [against, forIt] = [-1, 1].map((side) => votes.filter((each) => each === side).length)
  // One line among many may well be the exception, like a fee given back.
  if (against! > forIt! && against! * 10 >= lines.length)
    return `${isOwed ? 'Payments and refunds' : 'Deposits'} would take money out of ${account.name}, or purchases and fees bring it in.`
  const into = lines.filter((line) => line.amount > 0).length
  return isOwed && forIt === 0 && lines.length >= 3 && into * 2 > lines.length
    ? `Most transactions would pay into ${account.name}, although a card or loan is mostly charged.`
    : null
}

const comesIn = {
  card: /\b(payment|thank you|refund|credit|deposit)\b/i,
  bank: /\b(deposit|payroll|salary|refund)\b/i,
}
const goesOut = { card: /\b(purchase|fee|interest charged?)\b/i, bank: /\b(withdrawal|purchase|fee)\b/i }

/** 1 when the words agree with the sign, −1 when they say the opposite, 0 when they say nothing or both. */
const vote = (text: string, amount: number, isOwed: boolean): -1 | 0 | 1 => {
  const kind = isOwed ? 'card' : 'bank'
  const [into, out] = [comesIn[kind].test(text), goesOut[kind].test(text)]
  return into === out ? 0 : into === amount > 0 ? 1 : -1
}
