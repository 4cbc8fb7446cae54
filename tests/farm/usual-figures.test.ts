// The published usual figures: each can stand in its form, names its source, and moves to other prices only by the index.
import { expect, test } from 'vitest'
import {
  isMoney,
  type UsualFigure,
  type UsualList,
  usualKind,
  usualKinds,
  usualSource,
} from '#farm/usual/usual-figures.ts'
import { atPricesOf, lastPriceYear } from '#farm/usual/usual-prices.ts'
import { type Shape, shapeAt } from '#plan/form/shape.ts'

const lists: readonly UsualList[] = ['enterprises', 'herds', 'markets']
const all = lists.flatMap((list) =>
  usualKinds(list).flatMap((kind) => kind.figures.map((figure) => ({ list, kind, figure }))),
)

test('every kind has figures, and its fields are fields of the form', () => {
  expect(all.length).toBeGreaterThan(60)
  for (const { list, kind, figure } of all) {
    const where = `${kind.id} ${figure.field}`
    let shape: Shape | undefined = shapeAt(['farm', list, 0])
    for (const step of figure.field.split('.')) shape = shape?.properties?.[step]
    expect(shape, where).toBeDefined()
    // What is a share on the form is a share here, what is money is money.
    const isShare = shape!.unit === 'share'
    expect(figure.unit.startsWith('share'), where).toBe(isShare)
    if (isShare) expect(figure.value as number, where).toBeLessThanOrEqual(1)
  }
})

test('every figure lies in its range and names where it comes from', () => {
  for (const { kind, figure } of all) {
    const where = `${kind.id} ${figure.field}`
    if (typeof figure.value === 'number' && figure.low !== undefined) {
      expect(figure.low, where).toBeLessThanOrEqual(figure.value)
      expect(figure.high!, where).toBeGreaterThanOrEqual(figure.value)
    }
    expect(isMoney(figure), where).toBe(figure.dollarsYear !== undefined)
    const source = usualSource(figure)
    if (source === null) expect(figure.sum, where).toBe('by the unit')
    else expect(source.kind === 'memory', where).toBe(figure.obtained === 'memory')
    if (figure.obtained === 'computed') expect(figure.sum, where).toBeTruthy()
  }
})

const figureOf = (list: UsualList, kind: string, field: string): UsualFigure =>
  usualKind(list, kind)!.figures.find((one) => one.field === field)!

// BLS, CPI-U, annual averages: 1997 160.5, 2014 236.736, 2024 313.689 (published); 2025 321.943 is the mean of eleven months.
test('dollars are brought to the last whole year by the index, and nothing else is', () => {
  const hay = figureOf('enterprises', 'hay', 'costsPerUnit')
  const brought = atPricesOf(hay, lastPriceYear())!
  expect(lastPriceYear()).toBe(2025)
  expect(brought.value).toBeCloseTo((237.6 * 321.943) / 236.736, 2)
  expect([brought.low, brought.high]).toEqual([209.51, 323.12])
  expect(brought.dollarsYear).toBe(2025)
  expect(hay.value).toBe(237.6)
  expect(atPricesOf(figureOf('enterprises', 'hay', 'hoursPerUnit'), 2025)).toBeNull()
  expect(atPricesOf(figureOf('herds', 'cattle', 'prices.cullFemale'), 2025)).toBeNull()
})
