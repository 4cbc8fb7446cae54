// What a file says of one account in several pieces, put together: a statement a month, and lines that it corrects itself.
import type { Statement, StatementLine } from '../statement.ts'

/** Banks split one account into a statement a month: one account is one statement, with the later balance. */
export const onePerAccount = (statements: readonly Statement[]): Statement[] => {
  const one = new Map<string, Statement>()
  for (const [index, statement] of statements.entries()) {
    const key = statement.bankAccount === '' ? index : `${statement.kind}|${statement.bankAccount}`
    const known = one.get(String(key))
    if (!known) {
      one.set(String(key), statement)
      continue
    }
    known.lines.push(...statement.lines)
    known.remarks.push(...statement.remarks)
    if (statement.closing && statement.closing.asOf >= (known.closing?.asOf ?? ''))
      known.closing = statement.closing
  }
  return [...one.values()]
}

/** A line that the bank corrects in the same file is left out; what corrects it stays. */
export const withoutCorrected = (statement: Statement): Statement => {
  const corrected = new Map(
    statement.lines.flatMap(({ correction, fileLine }) =>
      correction ? [[correction.bankNumber, fileLine] as const] : [],
    ),
  )
  if (corrected.size === 0) return statement
  const isCorrected = (line: StatementLine) => line.bankNumber !== '' && corrected.has(line.bankNumber)
  return {
    ...statement,
    lines: statement.lines.filter((line) => !isCorrected(line)),
    remarks: [
      ...statement.remarks,
      ...statement.lines.filter(isCorrected).map((line) => ({
        fileLine: line.fileLine,
        message: `The bank corrects this line in line ${corrected.get(line.bankNumber)}. Left out`,
      })),
    ],
  }
}
