// What forms of the plan say of a choice: words of its own, never the value that the document holds.
import { expect, test } from 'vitest'
import { kindOf, labelOf, planShape, type Shape, variantsOf } from '#plan/form/shape.ts'

interface Place {
  at: string
  shape: Shape
}

const placesIn = (shape: Shape, at: string): Place[] => {
  const below = Object.entries(shape.properties ?? {}).flatMap(([key, field]) =>
    placesIn(field, `${at}.${key}`),
  )
  const items = shape.items ? placesIn(shape.items, `${at}[]`) : []
  const variants = [...(variantsOf(shape)?.by ?? [])].flatMap(([kind, one]) =>
    placesIn(one, `${at}(${kind})`),
  )
  return [{ at, shape }, ...below, ...items, ...variants]
}

const places = placesIn(planShape(), 'plan')

test('every choice of the plan has its words', () => {
  const choices = places.filter(({ shape }) => shape.enum !== undefined && shape.names === undefined)
  expect(choices.length).toBeGreaterThan(15)
  const wordless = choices.flatMap(({ at, shape }) =>
    shape.enum!.filter((value) => !shape.labels?.[value]).map((value) => `${at}: ${value}`),
  )
  expect(wordless).toEqual([])
})

test('every kind that a part of the plan can be has its name', () => {
  const kinds = places.filter(({ shape }) => variantsOf(shape) !== null)
  expect(kinds.length).toBeGreaterThan(2)
  const nameless = kinds.flatMap(({ at, shape }) =>
    [...variantsOf(shape)!.by].filter(([, one]) => !one.title).map(([kind]) => `${at}: ${kind}`),
  )
  expect(nameless).toEqual([])
})

test('no section of the plan asks for more than eight things without a heading', () => {
  const loose = Object.entries(planShape().properties!).flatMap(([key, shape]) => {
    const fields = Object.entries(shape.properties ?? {}).filter(
      ([name, field]) =>
        name !== 'id' &&
        !field.group &&
        !['group', 'rows', 'each', 'weights', 'variants', 'page', 'ticks', 'months'].includes(kindOf(field)),
    )
    return fields.length > 8 ? [`${labelOf(shape, key)}: ${fields.length}`] : []
  })
  expect(loose).toEqual([])
})
