// The law of seeing things twice in one go, for tests.
import { atOnce } from '#kept/in-turns.ts'
import { type JudgedLine, judging } from '#ledger/statements/seeing-twice.ts'

export const judgeLines = (...given: Parameters<typeof judging>): JudgedLine[] => atOnce(judging(...given))
