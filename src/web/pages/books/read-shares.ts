// Reads the parts of one sum as they were typed: by amount, by percent, or the rest.
import { beyondTheBill, type SplitShare } from '#ledger/statements/split-shares.ts'
import { type Cents, cents } from '#money/cents.ts'
import { centsToDecimalText, formatCents } from '#money/format.ts'
import { parseMoney } from '#money/parse.ts'
import { type FormErrors, rowCount, type TypedForm } from '#web/forms/form.ts'

/**
 * Typed parts by amount or percent; one left empty gets the rest of each of `bills`. Less than nothing is no rest: the field stays empty,
 * so that it follows once the others are corrected, and what was given back is typed.
 */
export const readShares = (
  typed: TypedForm,
  bills: readonly Cents[],
): { shares: SplitShare[] } | { errors: FormErrors } => {
  const errors: Record<string, string> = {}
  let restAt = ''
  const shares: SplitShare[] = []
  for (let index = 0; index < rowCount(typed, 'parts', 0); index += 1) {
    const account = typed.value(`parts.${index}.account`)
    const amount = typed.value(`parts.${index}.amount`).trim()
    if (account === '' && amount === '') continue
    if (!/^\d{1,15}$/.test(account)) errors[`parts.${index}.account`] = 'Choose what this part was for'
    const size = readSize(amount)
    if ('message' in size) errors[`parts.${index}.amount`] = size.message
    else if (size.by === 'rest' && shares.some(({ by }) => by === 'rest'))
      errors[`parts.${index}.amount`] = 'Only one amount can be left empty. Enter this one'
    if ('by' in size && size.by === 'rest') restAt = `parts.${index}.amount`
    const enterprise = typed.value(`parts.${index}.enterprise`)
    shares.push({
      accountId: Number.parseInt(account, 10),
      enterpriseId: enterprise === '' ? null : enterprise.slice(0, 60),
      ...('message' in size ? { by: 'rest', value: 0 } : size),
    })
  }
  if (shares.length === 0) errors['parts.0.account'] = 'Choose what the transaction was for'
  if (Object.keys(errors).length > 0) return { errors }
  for (const [at, size] of bills.entries()) {
    const beyond = beyondTheBill(shares, size)
    if (beyond === null) continue
    const says = `The other parts are ${formatCents(beyond)} more than the ${formatCents(size)} of the transaction.`
    return at === 0
      ? {
          errors: {
            [restAt]: `${says} Correct them. If this part was given back, enter it as ${centsToDecimalText(cents(-beyond))}.`,
          },
        }
      : { errors: { [restAt]: `${says} Leave that one to be split by itself` } }
  }
  return { shares }
}

const readSize = (text: string): Pick<SplitShare, 'by' | 'value'> | { message: string } => {
  if (text === '') return { by: 'rest', value: 0 }
  const isPercent = text.endsWith('%')
  const parsed = parseMoney(isPercent ? text.slice(0, -1) : text)
  if (!parsed.ok) return { message: parsed.message }
  // Percents have two digits after the point too, so that cents of a hundred are hundredths of a percent.
  return { by: isPercent ? 'percent' : 'amount', value: parsed.value }
}
