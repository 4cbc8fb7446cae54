// Amounts within kept texts as people write them: thousands by commas, as on the sheets themselves.
import { cents } from '#money/cents.ts'
import { formatCentsPlain } from '#money/format.ts'

export const plainAmounts = (text: string): string =>
  text.replace(/(?<![\d.,-])-?\d+\.\d\d(?![\d.])/g, (amount) =>
    formatCentsPlain(cents(Number(amount.replace('.', '')))),
  )
