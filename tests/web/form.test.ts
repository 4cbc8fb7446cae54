import { expect, test } from 'vitest'
import { z } from 'zod'
import { dayField, money, requiredText } from '#web/forms/fields.ts'
import { checkForm, openingForm, rowCount } from '#web/forms/form.ts'

const entry = z.object({
  day: dayField(),
  lines: z.array(z.object({ account: requiredText('Choose an account'), amount: money() })),
})

test('input names with points become rows, and amounts become cents', () => {
  const typed = openingForm({
    day: '2026-03-01',
    'lines.0.account': 'Feed',
    'lines.0.amount': '$1,234.50',
    'lines.1.account': 'Cash',
    'lines.1.amount': '-3',
  })
  const checked = checkForm(entry, typed)
  expect(checked).toEqual({
    ok: true,
    value: {
      day: '2026-03-01',
      lines: [
        { account: 'Feed', amount: 123450 },
        { account: 'Cash', amount: -300 },
      ],
    },
  })
  expect(rowCount(typed, 'lines', 4)).toBe(4)
})

test('what is wrong is told by the name of its input, and what was typed is kept', () => {
  const typed = openingForm({ day: '2026-02-30', 'lines.0.account': ' ', 'lines.0.amount': 'ten' })
  const checked = checkForm(entry, typed)
  expect(checked.ok).toBe(false)
  expect(checked.ok ? {} : checked.errors).toEqual({
    day: 'Enter a day, like 2026-03-15',
    'lines.0.account': 'Choose an account',
    'lines.0.amount': '“ten” is not an amount. Enter dollars and cents, like 1,234.56',
  })
  expect(typed.value('lines.0.amount')).toBe('ten')
})

test('names that reach for prototypes or for endless rows are dropped', () => {
  const typed = openingForm({
    '__proto__.polluted': 'yes',
    'a.constructor.b': 'yes',
    'lines.999999.amount': '1',
    'lines.499.amount': '1',
    'day.deeper': 'x',
    day: '2026-03-01',
  })
  expect(({} as { polluted?: string }).polluted).toBeUndefined()
  expect(Object.keys(typed.nested)).toEqual(['lines', 'day'])
  expect((typed.nested.lines as unknown[]).length).toBe(500)
})

test('a row that was left out between others is an empty row, told of at its own fields', () => {
  const typed = openingForm({ day: '2026-03-01', 'lines.2.account': 'Feed', 'lines.2.amount': '3' })
  const checked = checkForm(entry, typed)
  expect(Object.keys(checked.ok ? {} : checked.errors)).toEqual([
    'lines.0.account',
    'lines.0.amount',
    'lines.1.account',
    'lines.1.amount',
  ])
})

test('a NUL in a field is dropped: it would end the text in the books', () => {
  const typed = openingForm({ name: 'Feed\u0000 store' })
  expect(typed.nested).toEqual({ name: 'Feed store' })
  expect(typed.value('name')).toBe('Feed store')
})
