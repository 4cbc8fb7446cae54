// Documents that say the same are one; the last few are known.
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { Alike } from '#kept/alike.ts'

test('a copy is the document it was made from, and any change makes another', () => {
  fc.assert(
    fc.property(fc.dictionary(fc.string(), fc.jsonValue(), { maxKeys: 6 }), fc.string(), (document, name) => {
      const alike = new Alike<object>(3)
      expect(alike.foundOr(document)).toBe(document)
      expect(alike.foundOr(structuredClone(document))).toBe(document)
      const changed = { ...document, [name]: [document] }
      expect(alike.foundOr(changed)).toBe(changed)
    }),
    { numRuns: 200 },
  )
})

test('lists are no things by number, and what is not there is not nothing', () => {
  const alike = new Alike<object>(9)
  const documents = [
    { a: [] },
    { a: {} },
    { a: null },
    {},
    { a: undefined },
    { b: undefined },
    { a: [1, 2] },
    { a: [2, 1] },
  ]
  for (const one of documents) expect(alike.foundOr(one)).toBe(one)
})

test('what was asked for the longest ago is let go', () => {
  const alike = new Alike<{ n: number }>(2)
  const [one, two] = [{ n: 1 }, { n: 2 }]
  alike.foundOr(one)
  alike.foundOr(two)
  expect(alike.foundOr({ n: 1 })).toBe(one)
  alike.foundOr({ n: 3 })
  expect(alike.foundOr({ n: 1 })).toBe(one)
  expect(alike.foundOr({ n: 2 })).not.toBe(two)
})
