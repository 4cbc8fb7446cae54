// Whether planned draws fit in what the farm can spare, by months made up for it.
import { expect, test } from 'vitest'
import type { ProjectedMonth } from '#runway/project.ts'
import { drawsFit, fitWords } from '#today/now/draws-fit.ts'

const monthsOf = (count: number, each: (k: number) => [planned: number, unmet: number]) =>
  Array.from({ length: count }, (_, k) => {
    const [plannedDraw, unmetDraw] = each(k)
    return { plannedDraw, unmetDraw } as ProjectedMonth
  })

// Of 600 in twelve months three are paid whole and nine not at all: 1,800 over twelve are 150 a month.
test('what fits is the mean of what is paid of the planned draws in the coming twelve months', () => {
  const fit = drawsFit(monthsOf(30, (k) => (k < 3 ? [600, 0] : [600, 600])))
  expect(fit).toEqual({ planned: 600, fits: 150 })
  expect(fitWords(fit!)).toBe(
    'Of the draws planned for the coming twelve months, $600 a month on average, the farm can pay about $150.',
  )
})

// Draws are planned from the ninth month on: of four times 400 a quarter goes unpaid.
test('months without a planned draw are none of it', () => {
  expect(drawsFit(monthsOf(12, (k) => (k < 8 ? [0, 0] : [400, 100])))).toEqual({ planned: 400, fits: 300 })
})

test('draws that are paid, but for a little, and plans without any say nothing; none that fits is said so', () => {
  expect(drawsFit(monthsOf(12, () => [500, 20]))).toBeNull()
  expect(drawsFit(monthsOf(12, () => [0, 0]))).toBeNull()
  expect(drawsFit([])).toBeNull()
  expect(fitWords(drawsFit(monthsOf(12, () => [250, 250]))!)).toBe(
    'Of the draws planned for the coming twelve months, $250 a month on average, the farm can pay none.',
  )
})
