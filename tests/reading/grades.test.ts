// The grade of a page against the formula worked by hand.
import { expect, test } from 'vitest'
import { gradeOf, sentencesOf } from './grades.ts'

test('the formula by hand: 12 words of 12 syllables in two sentences', () => {
  const html = '<p>The cat sat on the mat. The dog lay by the door.</p>'
  expect(gradeOf(html)).toBeCloseTo(0.39 * 6 + 11.8 * 1 - 15.59, 9)
})

test('tags, fields, names and rows are no sentences', () => {
  const html =
    '<h2>Feed and seed</h2><label>Paid from</label><p>You <a href="/x">paid the bill</a> in May.</p><li>Hay, 12 bales</li>'
  expect(sentencesOf(html)).toEqual(['You paid the bill in May.'])
  expect(gradeOf('<h1>Now</h1>')).toBeNull()
})

test('a citation is not the page’s own prose, and what stands beside it still counts', () => {
  const html =
    '<p class="source">The limits are those of January. <cite>Source: 26 USC 36B(b)(3); Rev. Proc. 2025-25, read in full by us.</cite></p>'
  expect(sentencesOf(html)).toEqual(['The limits are those of January.'])
})

test('longer words and sentences read harder', () => {
  const plain = gradeOf('<p>You keep the farm and the house apart.</p>')!
  const hard = gradeOf('<p>Agricultural and residential administration necessitates separation.</p>')!
  expect(hard).toBeGreaterThan(plain + 10)
})
