// Heads of a herd by class in the words of its kind: 12 ewes, 3 ewe lambs, 18 lambs.
import { type HeadClass, headClasses } from '#farm/notebook/kinds.ts'
import type { HerdKind } from './herd-document.ts'
import { headWords } from './species-words.ts'

/** Classes of which none was noted are left out. */
export const headsSay = (kind: HerdKind, heads: Partial<Record<HeadClass, number>>): string =>
  headClasses
    .flatMap((one) => {
      const count = heads[one]
      return count === undefined ? [] : [`${count} ${headWords(one, [kind], count)}`]
    })
    .join(', ')
