// The school grade at which a page reads, by the Flesch–Kincaid formula: 0.39 words a sentence + 11.8 syllables a word − 15.59
// (Kincaid, Fishburne, Rogers and Chissom 1975, Navy research branch report 8-75), as the library has it.
import { fleschKincaid } from 'flesch-kincaid'
import { syllable } from 'syllable'

/** Null where a page holds no whole sentence. */
export function gradeOf(html: string): number | null {
  const sentences = sentencesOf(html)
  if (sentences.length === 0) return null
  const words = sentences.flatMap(wordsOf)
  const syllables = words.reduce((sum, word) => sum + (/\d/.test(word) ? figureSyllables : syllable(word)), 0)
  return fleschKincaid({ sentence: sentences.length, word: words.length, syllable: syllables })
}

/** Whole sentences of what a page says in its own words; rows, names, fields and what it cites are no sentences of its own. */
export const sentencesOf = (html: string): string[] =>
  [...html.matchAll(/<(p|li|dd|figcaption|caption)\b[^>]*>([\s\S]*?)<\/\1>/g)]
    .flatMap(([, , inner]) =>
      inner!
        .replaceAll(/<cite\b[^>]*>[\s\S]*?<\/cite>/g, '')
        .replaceAll(/<\/?(p|li|dd|dt|figcaption)\b[^>]*>/g, ' ')
        .replaceAll(/<[^>]*>/g, '')
        .replaceAll(/&[#\w]+;/g, '’')
        .split(/(?<=[.?!])\s+/),
    )
    .map((sentence) => sentence.replaceAll(/\s+/g, ' ').trim())
    .filter((sentence) => /[.?!]$/.test(sentence) && wordsOf(sentence).length >= 4)

const wordsOf = (sentence: string): string[] => sentence.match(/[\w$−][\w$.,%−’'-]*/g) ?? []

/** An amount, a year or a number is one word; how long it is to say depends on the figure, and this is short for most. */
const figureSyllables = 3
