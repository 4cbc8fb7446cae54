import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { allocate } from '#money/allocate.ts'
import { cents, dollarsToCents, sumCents } from '#money/cents.ts'
import {
  centsToDecimalText,
  formatCents,
  formatDollars,
  formatDollarsAndCents,
  formatPercent,
} from '#money/format.ts'
import { parseMoney, parsePercent, parseQuantity } from '#money/parse.ts'

const amounts = fc.integer({ min: -1_000_000_000_000, max: 1_000_000_000_000 }).map(cents)

describe('typed money', () => {
  test.each([
    ['12.34', 1234],
    ['$1,234.56', 123456],
    ['-$3.10', -310],
    ['$-3.10', -310],
    ['(12.00)', -1200],
    ['−5', -500],
    ['.5', 50],
    ['7.', 700],
    [' 1,000,000 ', 100_000_000],
  ])('%s is %i cents', (typed, expected) => {
    expect(parseMoney(typed)).toEqual({ ok: true, value: expected })
  })

  test.each([
    '',
    '   ',
    'abc',
    '1,00',
    '1,2345',
    '0x10',
    '1e5',
    'Infinity',
    'NaN',
    '12.345',
    '--5',
    '-$-5',
    '(5',
    '5)',
    '1 000',
    '.',
    '$',
    '()',
  ])('“%s” is refused with a sentence that shows what to enter', (typed) => {
    const parsed = parseMoney(typed)
    expect(parsed.ok).toBe(false)
    expect(!parsed.ok && parsed.message).toMatch(/Enter/)
  })

  test('a statement with fractions of a cent rounds half away from zero when told to', () => {
    expect(parseMoney('1.005', { roundFractions: true })).toEqual({ ok: true, value: 101 })
    expect(parseMoney('-1.005', { roundFractions: true })).toEqual({ ok: true, value: -101 })
  })

  test('an amount past what the books hold is refused', () => {
    expect(parseMoney('10,000,000,000.01').ok).toBe(false)
    expect(parseMoney('10,000,000,000').ok).toBe(true)
  })

  test('parse undoes format for every amount', () => {
    fc.assert(
      fc.property(amounts, (amount) => {
        expect(parseMoney(formatCents(amount))).toEqual({ ok: true, value: amount })
        expect(parseMoney(centsToDecimalText(amount))).toEqual({ ok: true, value: amount })
      }),
      { seed: 4610 },
    )
  })
})

describe('cents', () => {
  test('dollars become cents half away from zero, by their shortest decimal form', () => {
    expect(dollarsToCents(1.005)).toBe(101)
    expect(dollarsToCents(-1.005)).toBe(-101)
    expect(dollarsToCents(0.1 + 0.2)).toBe(30)
    expect(() => dollarsToCents(Number.NaN)).toThrow('Not an amount')
  })

  test('a part of a cent is a bug and says what was seen', () => {
    expect(() => cents(1.5)).toThrow('1.5')
    expect(() => cents(Number.MAX_SAFE_INTEGER + 1)).toThrow()
  })

  test('minus zero does not get into the books', () => {
    expect(Object.is(cents(-0), 0)).toBe(true)
  })

  test('split parts always add up to the whole, none is off by more than a cent', () => {
    const weights = fc
      .array(fc.integer({ min: 0, max: 1000 }), { minLength: 1, maxLength: 12 })
      .filter((list) => list.some((w) => w > 0))
    fc.assert(
      fc.property(amounts, weights, (total, list) => {
        const parts = allocate(total, list)
        expect(sumCents(parts)).toBe(total)
        const sum = list.reduce((a, b) => a + b, 0)
        parts.forEach((part, index) => {
          expect(Math.abs(part - (total * list[index]!) / sum)).toBeLessThan(1.001)
        })
      }),
      { seed: 4610 },
    )
  })

  test('cents left over go to the largest rest, and of equal ones to the earlier part', () => {
    expect(allocate(cents(100), [1, 1, 1])).toEqual([34, 33, 33])
    expect(allocate(cents(-200), [1, 1, 1])).toEqual([-67, -67, -66])
    expect(allocate(cents(10), [1, 2, 1, 3])).toEqual([2, 3, 1, 4])
  })
})

describe('written figures', () => {
  test('money carries commas and a true minus', () => {
    expect(formatCents(cents(-123456))).toBe('−$1,234.56')
    expect(formatCents(cents(5))).toBe('$0.05')
    expect(formatDollars(-1234.5)).toBe('−$1,235')
    expect(formatDollars(-0.2)).toBe('$0')
    expect(formatDollars(1.5e21)).toBe('$1,500,000,000,000,000,000,000')
    expect(formatDollarsAndCents(12.345)).toBe('$12.35')
    expect(formatDollarsAndCents(2e12)).toBe('$2,000,000,000,000')
  })

  test.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])(
    '%s is written nowhere as a figure',
    (value) => {
      for (const format of [formatDollars, formatDollarsAndCents, formatPercent])
        expect(() => format(value)).toThrow(RangeError)
      expect(formatPercent(0.0525)).toBe('5.25%')
      expect(formatPercent(0.1)).toBe('10%')
      expect(formatPercent(0)).toBe('0%')
      expect(formatPercent(0.9, 0)).toBe('90%')
    },
  )

  test('rates are read as percent', () => {
    expect(parsePercent('3.5%')).toEqual({ ok: true, value: 0.035 })
    expect(parsePercent('7')).toEqual({ ok: true, value: 0.07 })
    expect(parsePercent('1e3').ok).toBe(false)
    expect(parseQuantity('1,200.5')).toEqual({ ok: true, value: 1200.5 })
    for (const unclear of ['1,5', '12,34', '1,2000', '1.200,5', '1,,200'])
      expect(parseQuantity(unclear).ok).toBe(false)
    expect(parseQuantity('').ok).toBe(false)
  })
})
