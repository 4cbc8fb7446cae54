// Files in the shapes that banks write, each with what a person reads from it. The shapes are common practice, seen in the exports
// of many banks and written down from memory; every bank, name and amount in them is invented.
import { expect, test } from 'vitest'
import { readCsv } from '#ledger/statements/reading/csv.ts'
import { fitGuess, openBankFile } from '#ledger/statements/reading/read-file.ts'
import type { StatementLine } from '#ledger/statements/statement.ts'
import { amountShapes } from './csv-shapes/amounts.ts'
import { dayShapes } from './csv-shapes/days.ts'
import { rowShapes } from './csv-shapes/rows.ts'
import type { ReadByHand, Shape } from './csv-shapes/shape.ts'
import { writingShapes } from './csv-shapes/writing.ts'

const shapes = [...amountShapes, ...dayShapes, ...rowShapes, ...writingShapes]
const accountOf = ({ isCard }: Shape) =>
  isCard
    ? ({ kind: 'liability', name: 'Farm card' } as const)
    : ({ kind: 'asset', name: 'Farm checking' } as const)

/** As much of each line as was read by hand. */
const asByHand = (lines: readonly StatementLine[], byHand: readonly ReadByHand[]) =>
  lines.map(({ day, amount, payee, ...rest }, at) => {
    const more = Object.keys(byHand[at]?.[3] ?? {})
    const told = Object.fromEntries(more.map((name) => [name, (rest as Record<string, unknown>)[name]]))
    return more.length > 0 ? [day, amount, payee, told] : [day, amount, payee]
  })

test('there are forty shapes and more, no two of one name', () => {
  expect(new Set(shapes.map(({ name }) => name)).size).toBe(shapes.length)
  expect(shapes.length).toBeGreaterThanOrEqual(40)
})

test.for(shapes.map((shape) => [shape.name, shape] as const))('%s', ([, shape]) => {
  const bytes = typeof shape.file === 'string' ? Buffer.from(shape.file) : shape.file
  const opened = openBankFile(bytes)
  if (!opened.ok || opened.format !== 'csv') throw new Error(JSON.stringify(opened))
  const { text, sketch } = opened
  const read = readCsv(text, fitGuess(text, sketch.guess, accountOf(shape)))
  if (!read.ok) throw new Error(`${read.fileLine} ${read.message}`)
  const { lines, remarks, closing } = read.statements[0]!
  expect(asByHand(lines, shape.lines)).toEqual(shape.lines)
  const isRounded = new Set(lines.map(({ fileLine }) => fileLine))
  expect(remarks.map(({ fileLine }) => fileLine).filter((line) => !isRounded.has(line))).toEqual(
    shape.leftOut ?? [],
  )
  expect(sketch.doubts.map(({ about }) => about)).toEqual(shape.asked ?? [])
  if (shape.closing) expect(closing).toEqual(shape.closing)
})
