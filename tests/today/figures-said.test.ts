// How figures are written out: to the cent, months as text, shares and rates as they are.
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { figuresSaid } from '#today/figures-said.ts'
import { csvText } from '#web/forms/csv.ts'

test('money is written to the cent, however small, and shares, rates and levels to a millionth', () => {
  expect(
    figuresSaid({
      spendable: 12_345.678_901,
      draw: 0.004_999,
      taxes: -0.001,
      yearlyRate: 0.072_5,
      coverRatio: 1.234_567_89,
      months: [{ level: 1.081_234_567, living: 100 / 3 }],
    }),
  ).toEqual({
    spendable: 12_345.68,
    draw: 0,
    taxes: 0,
    yearlyRate: 0.0725,
    coverRatio: 1.234_568,
    months: [{ level: 1.081_235, living: 33.33 }],
  })
})

test('months are text by their name, and dollars of the same size are not', () => {
  const march = month(2027, 3)
  expect(
    figuresSaid({
      month: march,
      floorMonth: march,
      runsShort: null,
      openBefore: [march],
      perMonth: march,
      paymentPerMonth: march,
      monthsLeft: 14,
      from: march,
    }),
  ).toEqual({
    month: '2027-03',
    floorMonth: '2027-03',
    runsShort: null,
    openBefore: ['2027-03'],
    perMonth: march,
    paymentPerMonth: march,
    monthsLeft: 14,
    from: march,
  })
})

test('tables are written alike', () => {
  expect(
    csvText({ header: ['month', 'spendable', 'level'], rows: [[month(2027, 3), 1 / 3, 1.000_000_04]] }),
  ).toBe('month,spendable,level\r\n2027-03,0.33,1\r\n')
})
