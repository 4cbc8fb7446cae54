// The state whose tax a payment is, where its words name one.
import { type StateCode, stateNames } from '#rules/places/state-names.ts'

/** Postal letters; null where the words name none, or more than one. */
export const stateNamed = (words: string): StateCode | null => {
  const named = new Set([...byName(words), ...byLetters(words)])
  return named.size === 1 ? [...named][0]! : null
}

/** Longest first, so that West Virginia is not Virginia; a city or a county may have a state's name and lies elsewhere. */
const names = (Object.entries(stateNames) as [StateCode, string][]).sort(
  ([, a], [, b]) => b.length - a.length,
)
const codeOf = new Map(names.map(([code, name]) => [name.toLowerCase(), code]))
const anyName = new RegExp(
  `\\b(${names.map(([, name]) => name).join('|')})\\b(?! (?:city|county|township|town|village|borough|parish)\\b)`,
  'gi',
)

const byName = (words: string): StateCode[] =>
  [...words.replaceAll(/\s+/g, ' ').matchAll(anyName)].map(([, name]) => codeOf.get(name!.toLowerCase())!)

/** As banks shorten it: “OH DEPT OF REVENUE”. */
const byLetters = (words: string): StateCode[] =>
  [...words.matchAll(/\b([A-Z]{2}) (?:DEPT|DEPARTMENT|DOR|STATE)\b/g)].flatMap(([, letters]) =>
    Object.hasOwn(stateNames, letters!) ? [letters as StateCode] : [],
  )
