// Bends JSON documents as hands, other programs and malice bend them: other types, holes, repeats, huge and hostile values, broken text.
import fc from 'fast-check'
import { anyText } from './any-text.ts'

export interface Bending {
  /** Sound documents. */
  seeds: readonly object[]
  /** Keys that mean something somewhere in such a document. */
  keys: readonly string[]
  /** Values that mean something: with them a bent document often stays readable, and its reader is tested further in. */
  values: readonly unknown[]
  /** Where most of the document lies: most changes are made in there. */
  mostlyIn?: string
}

/** Text of a bent document. Fractions pick places, so that a failing input shrinks to few and early changes. */
export const bentJson = (bending: Bending): fc.Arbitrary<string> =>
  fc
    .record({
      seed: fc.nat(bending.seeds.length - 1),
      changes: fc.array(change, { minLength: 1, maxLength: 3 }),
      tears: fc.oneof({ weight: 12, arbitrary: fc.constant([]) }, fc.array(tear, { maxLength: 3 })),
    })
    .map(({ seed, changes, tears }) => {
      const root = { document: structuredClone(bending.seeds[seed]!) }
      for (const one of changes) bend(root, one, bending)
      return torn(written(root.document), tears)
    })

/** Where a figure is no number, or null: JSON would write it as null without a word. */
export const wrongNumberIn = (value: unknown): string | null => {
  if (typeof value === 'number') return Number.isFinite(value) ? null : ` is ${value}`
  if (typeof value !== 'object' || value === null) return null
  for (const key in value) {
    const found = wrongNumberIn((value as Record<string, unknown>)[key])
    if (found) return `.${key}${found}`
  }
  return null
}

type Holder = Record<string, unknown> | unknown[]
type Slot = { holder: Holder; key: string }

interface Change {
  how: (typeof ways)[number]
  where: number
  which: number
}

const ways = [
  ...['known', 'known', 'number', 'number', 'number', 'number', 'number', 'another', 'another'],
  ...['drop', 'repeat', 'repeat', 'reverse', 'reverse'],
  ...['awkward', 'add', 'inherited', 'twice', 'raw', 'many'],
] as const

const change: fc.Arbitrary<Change> = fc.record({
  how: fc.constantFrom(...ways),
  where: fc.nat(2 ** 30),
  which: fc.nat(2 ** 20),
})

const bend = (root: { document: unknown }, { how, where, which }: Change, bending: Bending): void => {
  const slot = slotAt(root, where, bending.mostlyIn)
  const value = valueIn(slot)
  if (how === 'drop') drop(slot, root)
  else if (how === 'repeat' || how === 'many' || how === 'reverse') {
    const list = [value, slot.holder].find((one) => Array.isArray(one))
    if (list) lengthen(list, how, which)
  } else if (how === 'add' || how === 'inherited' || how === 'twice') {
    const into = [value, slot.holder].find((one) => isObject(one) && one !== root)
    if (into) addTo(into as Record<string, unknown>, how, which, bending)
  } else put(slot, otherValue(root, value, how, which, bending))
}

type Replacing = 'known' | 'number' | 'another' | 'awkward' | 'raw'

const otherValue = (
  root: { document: unknown },
  value: unknown,
  how: Replacing,
  which: number,
  bending: Bending,
): unknown => {
  if (how === 'raw') return `${rawMark}${which % rawTexts.length}`
  if (how === 'number' && typeof value === 'number') return oneOf(otherNumbers(value), which)
  const find: (k: number) => unknown =
    how === 'another'
      ? (k) => valueIn(slotAt(root, which + k * 7919, bending.mostlyIn))
      : (k) => oneOf(how === 'awkward' ? awkward : bending.values, which + k)
  return structuredClone(how === 'awkward' ? find(0) : firstLike(value, find))
}

/** What is found first with the type of the value, or failing that at all. */
const firstLike = (value: unknown, find: (k: number) => unknown): unknown => {
  for (let k = 0; k < 12; k += 1) {
    const found = find(k)
    if (kindOf(found) === kindOf(value)) return found
  }
  return find(0)
}

const kindOf = (value: unknown): string =>
  value === null ? 'null' : Array.isArray(value) ? 'list' : typeof value

const isObject = (value: unknown): boolean => kindOf(value) === 'object'

const drop = ({ holder, key }: Slot, root: unknown): void => {
  if (holder === root) return
  if (Array.isArray(holder)) holder.splice(Number(key), 1)
  else delete holder[key]
}

const lengthen = (list: unknown[], how: 'repeat' | 'many' | 'reverse', which: number): void => {
  if (how === 'reverse') list.reverse()
  else if (how === 'repeat') list.push(...structuredClone(list.slice(0, 1 + (which % 3))))
  else if (list.length > 0)
    list.push(...Array.from({ length: oneOf([70, 700], which) }, (_, at) => list[at % list.length]))
}

const addTo = (
  holder: Record<string, unknown>,
  how: 'add' | 'inherited' | 'twice',
  which: number,
  bending: Bending,
): void => {
  const set = (key: string, value: unknown) =>
    Object.defineProperty(holder, key, { value, enumerable: true, configurable: true, writable: true })
  if (how === 'add') set(oneOf(bending.keys, which), structuredClone(oneOf(bending.values, which >> 3)))
  else if (how === 'inherited')
    set(oneOf(['__proto__', 'constructor', 'prototype', 'toString', 'hasOwnProperty'], which), {
      perMonth: 1,
      toString: 1,
    })
  else {
    const key = oneOf(Object.keys(holder), which)
    if (key !== undefined) set(`${twiceMark}${key}`, structuredClone(oneOf(awkward, which >> 3)))
  }
}

/** Goes down from the top, at each step to any child or no further: what lies under a long list is not met more often for that. */
const slotAt = (root: { document: unknown }, where: number, mostlyIn = ''): Slot => {
  let dice = where
  const roll = (most: number) => {
    dice = (Math.imul(dice, 1_664_525) + 1_013_904_223) >>> 0
    return Math.floor((dice / 2 ** 32) * most)
  }
  let slot: Slot = { holder: root, key: 'document' }
  const within = (root.document as Record<string, unknown> | null)?.[mostlyIn]
  if (typeof within === 'object' && within !== null && roll(5) > 0)
    slot = { holder: root.document as Holder, key: mostlyIn }
  for (;;) {
    const value = valueIn(slot)
    if (typeof value !== 'object' || value === null) return slot
    const keys = Object.keys(value)
    if (keys.length === 0 || (slot.holder !== root && roll(10) === 0)) return slot
    slot = { holder: value as Holder, key: keys[roll(keys.length)]! }
  }
}

const valueIn = ({ holder, key }: Slot): unknown => (holder as Record<string, unknown>)[key]

const put = ({ holder, key }: Slot, value: unknown): void => {
  ;(holder as Record<string, unknown>)[key] = value
}

const oneOf = <Item>(list: readonly Item[], which: number): Item => list[which % list.length]!

const numbers = [0, -0, 1, -1, 2, 12, 0.5, 1e-9, 100, 1e6, 1e9, 1e12, 2 ** 53, 1e300, 1.7e308, -1e308, 5e-324]

const otherNumbers = (value: number): readonly number[] => [
  -value,
  value + 1,
  value - 1,
  value / 2,
  value * 3,
  value * 1000,
  Math.round(value),
  value + 0.005,
  ...numbers,
]

const awkward: readonly unknown[] = [
  null,
  true,
  false,
  '',
  ' ',
  [],
  {},
  [[]],
  [null],
  { '': '' },
  'NaN',
  '1e999',
  '12.34',
  '\u0000',
  '\ud800',
  '\u202e',
  '\ufeff',
  '٣٤',
  '__proto__',
  'constructor',
  '<script>alert(1)</script>',
  "'; DROP TABLE entries; --",
  'é'.repeat(50),
  'A'.repeat(5000),
  '😀'.repeat(40),
  '2026-13',
  '2026-02-30',
  '0000-01',
  '9999-12',
  '2026-1',
  ...numbers,
]

/** What no value can be written as, put into the text itself. */
const rawTexts = [
  'NaN',
  'Infinity',
  '1e999',
  '-1e999',
  '1e-999',
  '-0.0',
  '0123',
  '1.',
  'undefined',
  '123456789012345678901234567890.123456789',
  '"\\ud800"',
  '"\\u0000"',
  '{"a":1,"a":2}',
  '{"__proto__":{"perMonth":1}}',
  `${'['.repeat(2000)}${']'.repeat(2000)}`,
  `${'{"a":'.repeat(2000)}1${'}'.repeat(2000)}`,
]
const rawMark = '\u0001raw'
const twiceMark = '\u0001twice'

const written = (document: unknown): string =>
  (JSON.stringify(document) ?? '')
    .replaceAll(/"\\u0001raw(\d+)"/g, (_, which: string) => rawTexts[Number(which)]!)
    .replaceAll('\\u0001twice', '')

interface Tear {
  at: number
  cut: number
  put: string
}

const tear: fc.Arbitrary<Tear> = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  cut: fc.oneof(fc.constant(0), fc.integer({ min: 0, max: 12 }), fc.integer({ min: 0, max: 20_000 })),
  put: fc.oneof(
    fc.constantFrom('', '"', '{', '}', ',', '\\', '\u0000', '\ufeff', '//', '[]', '\n'),
    anyText(12),
  ),
})

const torn = (text: string, tears: readonly Tear[]): string =>
  tears.reduce((now, { at, cut, put }) => {
    const from = Math.floor(at * now.length)
    return now.slice(0, from) + put + now.slice(from + cut)
  }, text)
