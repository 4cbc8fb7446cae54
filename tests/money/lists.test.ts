import { expect, test } from 'vitest'
import { allOf, anyOf } from '#money/lists.ts'

test('words in a row read as in a sentence, with a comma before the last of three or more', () => {
  const beds = ['beans', 'kale', 'garlic', 'leeks']
  expect([0, 1, 2, 3, 4].map((count) => allOf(beds.slice(0, count)))).toEqual([
    '',
    'beans',
    'beans and kale',
    'beans, kale, and garlic',
    'beans, kale, garlic, and leeks',
  ])
  expect(anyOf(beds.slice(0, 2))).toBe('beans or kale')
  expect(anyOf(beds.slice(0, 3))).toBe('beans, kale, or garlic')
})

// Unicode CLDR, list patterns of en-US, as Node has them.
test.each([
  ['conjunction', allOf],
  ['disjunction', anyOf],
] as const)('a %s is joined as the tables of the language have it', (type, joined) => {
  const list = new Intl.ListFormat('en-US', { type })
  for (const beds of [[], ['beans'], ['beans', 'kale'], ['a, b', 'c and d', 'e'], ['1', '2', '3', '4', '5']])
    expect(joined(beds)).toBe(list.format(beds))
})
