import { expect, test } from 'vitest'
import { missingYears, readRecord, recordOf, recordText, withEstimates } from '#plan/earnings-record.ts'
import { averageWageIndex } from '#rules/data/social-security.ts'
import { lookUp, steadyIndexing } from '#rules/dated.ts'

const wagesOf = (year: number) => lookUp(averageWageIndex, year, steadyIndexing(0.03)).value
const linesOf = (text: string) => {
  const read = readRecord(text, 2026)
  if (!read.ok) throw new Error(read.message)
  return read.lines
}

test('a table copied from a page is read: its heading, tabs, dollar signs, commas and a third column do not matter', () => {
  const text =
    'Work Year\tTaxed Social Security Earnings\tTaxed Medicare Earnings\n2021\t$43,100\t$43,100\n2019\t41,250.50\n2020 40000\n'
  expect(linesOf(text)).toEqual([
    { year: 2019, amount: 41_250.5, estimated: false },
    { year: 2020, amount: 40_000, estimated: false },
    { year: 2021, amount: 43_100, estimated: false },
  ])
})

test('a record written as text is read back as it was, estimates too', () => {
  const record = [
    { year: 2019, amount: 41_250.5 },
    { year: 2020, amount: 0 },
    { year: 2021, amount: 43_100, estimated: true },
  ]
  expect(recordText(record)).toBe('2019 41250.5\n2020 0\n2021 43100 estimate')
  expect(recordOf(linesOf(recordText(record)), record)).toEqual(record)
})

test('a line that is no year and amount is told by its number', () => {
  expect(readRecord('2019 41250\nlast year 3000', 2026)).toEqual({
    ok: false,
    message: 'Line 2: begin with the year, like 2019 41250',
  })
  expect(readRecord('2019 41250\n2019 3', 2026)).toEqual({
    ok: false,
    message: 'Line 2: 2019 is here twice',
  })
  expect(readRecord('2019 -5', 2026)).toMatchObject({ ok: false })
  expect(readRecord('2019 12.5.1', 2026)).toMatchObject({ ok: false })
})

test('a year to come, and one before records begin, are refused', () => {
  for (const year of [2027, 1950])
    expect(readRecord(`${year} 100`, 2026)).toEqual({
      ok: false,
      message: 'Line 1: enter a year from 1951 to 2026',
    })
})

test('a year without an amount is missing, and so is one between two others; a year of nothing is not', () => {
  const lines = linesOf('2017 30000\n2018 0\n2020 32000\n2021 not yet recorded')
  expect(missingYears(lines)).toEqual([2019, 2021])
})

// National average wage indexing series of the Social Security Administration: 2019 54,099.99, 2020 55,628.60, 2021 60,575.07.
test('a missing year is estimated by wages in general, from the years on both its sides', () => {
  const lines = withEstimates(linesOf('2019 40000\n2021 45000'), wagesOf)
  const share = (40_000 / 54_099.99 + 45_000 / 60_575.07) / 2
  expect(lines[1]).toEqual({ year: 2020, amount: Math.round(share * 55_628.6), estimated: true })
  expect(lines[1]!.amount).toBe(41_228)
  expect([lines[0], lines[2]]).toEqual(linesOf('2019 40000\n2021 45000'))
})

test('the nearer year weighs more, and one at the end follows the last', () => {
  const lines = withEstimates(linesOf('2016 48642.15\n2020 0\n2021 0\n2022'), () => 48_642.15)
  // Parts of wages 1 and 0 over four years: three quarters, a half, a quarter.
  expect(lines.map((one) => one.amount)).toEqual([48_642.15, 36_482, 24_321, 12_161, 0, 0, 0])
  expect(withEstimates(linesOf('2020 \n2021'), wagesOf)).toEqual(linesOf('2020 \n2021'))
})
