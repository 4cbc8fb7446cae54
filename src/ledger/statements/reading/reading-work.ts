// What a worker does with a bank file: plain data in and out.
import type { ColumnMapping } from './column-mapping.ts'
import { fitGuess, openBankFile, readMapped } from './read-file.ts'

export { openBankFile }

export const readMappedIn = (order: { text: string; mapping: ColumnMapping }) =>
  readMapped(order.text, order.mapping)

export const fitGuessIn = (order: {
  text: string
  guess: ColumnMapping
  account: Parameters<typeof fitGuess>[2]
}) => fitGuess(order.text, order.guess, order.account)
