import fc from 'fast-check'
import { expect, test } from 'vitest'
import { readCsv } from '#ledger/statements/reading/csv.ts'
import { openBankFile } from '#ledger/statements/reading/read-file.ts'
import type { Statement } from '#ledger/statements/statement.ts'
import { judgeLines } from '../ledger/statements/judge-lines.ts'
import { assertFuzz, fuzzRuns } from './batches.ts'
import { begin, expectQuick, expectSmall, fuzzTimeout } from './limits.ts'
import { statementBytes } from './statement-inputs.ts'

const dayPattern = /^\d{4}-\d{2}-\d{2}$/

/** What any file that is accepted must hold to, whatever it was made of. */
const expectSound = (statement: Statement) => {
  for (const line of statement.lines) {
    expect(Number.isSafeInteger(line.amount) && line.amount !== 0).toBe(true)
    expect(line.day).toMatch(dayPattern)
    expect(line.fileLine).toBeGreaterThan(0)
  }
  const first = judgeLines(statement.lines, [])
  const keys = first.filter((each) => each.verdict !== 'seen').map((each) => each.lineKey)
  expect(new Set(keys).size).toBe(keys.length)
}

test('bent bank files are read or refused with a reason: never a crash, never over two seconds, never out of memory', {
  timeout: fuzzTimeout,
}, async () => {
  let accepted = 0
  await assertFuzz(
    fc.property(statementBytes, (bytes) => {
      const begun = begin()
      const opened = openBankFile(bytes)
      if (opened.ok && opened.format === 'ofx') {
        accepted += 1
        opened.statements.forEach(expectSound)
      } else if (opened.ok && opened.format === 'csv') {
        const read = readCsv(opened.text, opened.sketch.guess)
        if (read.ok) {
          accepted += 1
          for (const one of read.statements) expectSound(one)
        } else expect(read.message).not.toBe('')
      } else if (!opened.ok) {
        expect(opened.message.length).toBeGreaterThan(10)
        expect(opened.fileLine).toBeGreaterThanOrEqual(0)
      }
      expectQuick(begun)
    }),
  )
  // A fuzz that only ever meets the front door proves little.
  expect(accepted).toBeGreaterThan(fuzzRuns() / 20)
  expectSmall()
})

test('files built to be slow are not: many open tags, quotes, entities, one endless line', {
  timeout: 120_000,
}, () => {
  const million = 1_000_000
  const monsters = [
    '<OFX>'.repeat(million / 5),
    `<OFX>${'<STMTTRN>'.repeat(million / 9)}`,
    `<OFX><STMTTRN><NAME>${'&'.repeat(million)}`,
    `<OFX><STMTTRN><NAME>${'<'.repeat(million)}`,
    `<OFX>${'<!--'.repeat(million / 4)}`,
    `<OFX>${'<![CDATA['.repeat(million / 9)}`,
    `${'"'.repeat(million)}\n`,
    `a,b\n${','.repeat(million)}`,
    `a,b\n${'"a""b'.repeat(million / 5)}`,
    `a,b\n01/01/2024,${'1'.repeat(90_000)}`,
    `a,b\n${'1-'.repeat(40_000)},1`,
    `${'x,y\n'.repeat(million / 4)}`,
    `Date,What,Amount\n${'01/05/2024,Tea,-3.00\n'.repeat(50_000)}`,
  ]
  for (const text of monsters) {
    const begun = begin()
    const opened = openBankFile(Buffer.from(text))
    if (opened.ok && opened.format === 'csv') readCsv(opened.text, opened.sketch.guess)
    expectQuick(begun, text.slice(0, 30))
  }
})
