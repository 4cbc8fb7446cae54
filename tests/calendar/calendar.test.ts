import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  addDays,
  ageOn,
  day,
  dayInMonth,
  dayName,
  dayNumber,
  daysInMonth,
  lastDayOf,
  monthOfDay,
  parseDay,
  weekdayOf,
} from '#calendar/day.ts'
import {
  addMonths,
  month,
  monthName,
  monthOfYear,
  monthsBetween,
  monthText,
  parseMonth,
  yearOf,
} from '#calendar/month.ts'

describe('months', () => {
  test('a month is its year and number', () => {
    const november = month(2026, 11)
    expect([yearOf(november), monthOfYear(november)]).toEqual([2026, 11])
    expect(monthText(november)).toBe('2026-11')
    expect(monthName(november)).toBe('November 2026')
    expect(monthText(addMonths(november, 2))).toBe('2027-01')
    expect(monthsBetween(november, month(2027, 11))).toBe(12)
  })

  test('text that is no month is refused', () => {
    for (const text of ['2026-13', '2026-00', '26-01', '2026-1', '', '2026-11-01'])
      expect(parseMonth(text)).toBeNull()
    expect(() => month(2026, 13)).toThrow('2026-13')
  })

  test('text is read as its pattern says, whatever it is', () => {
    const near = fc.stringMatching(/^ ?[0-9]{3,5}[-–:]?[0-9a:/]{1,3} ?$/)
    fc.assert(
      fc.property(fc.oneof(near, fc.string({ maxLength: 9 })), (text) => {
        const match = /^([0-9]{4})-(0[1-9]|1[0-2])$/.exec(text.trim())
        expect(parseMonth(text)).toBe(match ? month(Number(match[1]), Number(match[2])) : null)
      }),
    )
    expect(parseMonth(' 0800-09 ')).toBe(month(800, 9))
  })
})

describe('days', () => {
  test('the calendar is checked', () => {
    expect(parseDay('2026-02-29')).toBeNull()
    expect(parseDay('2028-02-29')).toBe('2028-02-29')
    expect(parseDay('2100-02-29')).toBeNull()
    expect(parseDay('2000-02-29')).toBe('2000-02-29')
    expect(() => day('2026-06-31')).toThrow('2026-06-31')
  })

  test('a date past the end of a month becomes its last day', () => {
    expect(dayInMonth(month(2026, 2), 31)).toBe('2026-02-28')
    expect(lastDayOf(month(2028, 2))).toBe('2028-02-29')
    expect(daysInMonth(month(2026, 4))).toBe(30)
  })

  test('weekdays agree with the calendar', () => {
    // November 25, 2026 is a Wednesday; January 1, 1970 was a Thursday (common calendar).
    expect(weekdayOf(day('2026-11-25'))).toBe(3)
    expect(weekdayOf(day('1970-01-01'))).toBe(4)
    expect(weekdayOf(day('1969-12-31'))).toBe(3)
    expect(dayName(day('2026-11-05'))).toBe('Nov 5, 2026')
  })

  test('adding days moves by that many days', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -20_000, max: 60_000 }),
        fc.integer({ min: -2000, max: 2000 }),
        (start, count) => {
          const from = addDays(day('1970-01-01'), start)
          expect(dayNumber(addDays(from, count)) - dayNumber(from)).toBe(count)
          expect(parseDay(from)).toBe(from)
          expect(monthText(monthOfDay(from))).toBe(from.slice(0, 7))
        },
      ),
      { seed: 4610 },
    )
  })

  test('age rises on the birthday, and on March 1 for a February 29', () => {
    expect(ageOn(day('1980-11-26'), day('2026-11-25'))).toBe(45)
    expect(ageOn(day('1980-11-25'), day('2026-11-25'))).toBe(46)
    expect(ageOn(day('1980-02-29'), day('2026-02-28'))).toBe(45)
    expect(ageOn(day('1980-02-29'), day('2026-03-01'))).toBe(46)
  })
})
