// What a worker does with a bank file: plain data in and out.
import type { ColumnMapping } from './column-mapping.ts'
import { readCsv } from './csv.ts'
import { fitGuess, openBankFile } from './read-file.ts'

export { openBankFile }

export const readCsvIn = (order: { text: string; mapping: ColumnMapping }) =>
  readCsv(order.text, order.mapping)

export const fitGuessIn = (order: {
  text: string
  guess: ColumnMapping
  account: Parameters<typeof fitGuess>[2]
  bankAccount: string
}) => fitGuess(order.text, order.guess, order.account, order.bankAccount)
