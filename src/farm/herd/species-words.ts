// What people call the stock of a kind: cow, bull, heifer, calf; and plain words of heads said in those of a kind.
import type { HeadClass } from '#farm/notebook/kinds.ts'
import { anyOf } from '#money/lists.ts'
import type { HerdKind } from './herd-document.ts'

/** One and many of each class; `sold`: young as they are sold. */
export interface SpeciesWords {
  female: Word
  male: Word
  young: Word
  kept: Word
  sold: Word
}
export type Word = readonly [one: string, many: string]

const lamb: Word = ['lamb', 'lambs']
const kid: Word = ['kid', 'kids']
const pig: Word = ['pig', 'pigs']

export const speciesWords: Readonly<Record<HerdKind, SpeciesWords>> = {
  sheep: {
    female: ['ewe', 'ewes'],
    male: ['ram', 'rams'],
    young: lamb,
    kept: ['ewe lamb', 'ewe lambs'],
    sold: lamb,
  },
  goats: {
    female: ['doe', 'does'],
    male: ['buck', 'bucks'],
    young: kid,
    kept: ['doeling', 'doelings'],
    sold: kid,
  },
  cattle: {
    female: ['cow', 'cows'],
    male: ['bull', 'bulls'],
    young: ['calf', 'calves'],
    kept: ['heifer', 'heifers'],
    sold: ['calf or steer', 'calves or steers'],
  },
  pigs: { female: ['sow', 'sows'], male: ['boar', 'boars'], young: pig, kept: ['gilt', 'gilts'], sold: pig },
  layers: {
    female: ['hen', 'hens'],
    male: ['rooster', 'roosters'],
    young: ['chick', 'chicks'],
    kept: ['pullet', 'pullets'],
    sold: ['chick', 'chicks'],
  },
  ducks: {
    female: ['duck', 'ducks'],
    male: ['drake', 'drakes'],
    young: ['duckling', 'ducklings'],
    kept: ['duck of the year', 'ducks of the year'],
    sold: ['duckling', 'ducklings'],
  },
  geese: {
    female: ['goose', 'geese'],
    male: ['gander', 'ganders'],
    young: ['gosling', 'goslings'],
    kept: ['goose of the year', 'geese of the year'],
    sold: ['gosling', 'goslings'],
  },
  turkeys: {
    female: ['turkey hen', 'turkey hens'],
    male: ['tom', 'toms'],
    young: ['poult', 'poults'],
    kept: ['jenny', 'jennies'],
    sold: ['turkey', 'turkeys'],
  },
}

/** Many of a unit of the plan: beds, geese. */
export const manyOf = (unit: string): string =>
  Object.values(speciesWords).find(({ female }) => female[0] === unit)?.female[1] ?? `${unit}s`

/** Many of a class of the notebook, in the words of the kinds that may be meant: `ewes or hens`. Plain words where no kind is known. */
export const headWords = (headClass: HeadClass, kinds: readonly HerdKind[], count = 2): string => {
  const of = classOf[headClass]
  const words = [...new Set(kinds.map((kind) => speciesWords[kind][of][count === 1 ? 0 : 1]))]
  return words.length === 0 ? plainWords[headClass] : anyOf(words)
}

const plainWords = {
  females: 'females',
  kept: 'young kept to breed',
  young: 'young for sale',
  males: 'males',
} as const

const classOf = { females: 'female', kept: 'kept', young: 'young', males: 'male' } as const

/** `Breeding females then` of sheep is `Ewes then`: a title or sentence about heads in the words of a kind. */
export const inSpecies = (text: string, kind: HerdKind): string => {
  return phrases.reduce(
    (said, [phrase, [of, place]]) =>
      said.replace(phrase, (found) => asBegun(found, speciesWords[kind][of][place])),
    ways[kind].reduce(
      (said, [phrase, words]) => said.replace(phrase, (found) => asBegun(found, words)),
      text,
    ),
  )
}

/** Of the rates of birds those of hens alone are known here. */
const asHens: readonly [RegExp, string] = [
  /common practice for the kind/gi,
  'common practice for laying hens, for want of others',
]

/** What a kind does and gives in words of its own, before heads are named: hens hatch, and eggs are no wool (common practice of the trade, no source). */
const ways: Readonly<Record<HerdKind, readonly (readonly [RegExp, string])[]>> = {
  sheep: [
    [/wool, milk or eggs/gi, 'wool or milk'],
    [/conceive for a birth month/gi, 'conceive for a lambing month'],
    [/that gives birth/gi, 'that lambs'],
    [/months of birth/gi, 'months of lambing'],
    [/(?<=the breeding )herd/gi, 'flock'],
    [/(?<=\bthe )herd/gi, 'flock'],
  ],
  goats: [
    [/wool, milk or eggs/gi, 'milk or fiber'],
    [/conceive for a birth month/gi, 'conceive for a kidding month'],
    [/that gives birth/gi, 'that kids'],
    [/months of birth/gi, 'months of kidding'],
  ],
  cattle: [
    [/wool, milk or eggs/gi, 'milk'],
    [/conceive for a birth month/gi, 'conceive for a calving month'],
    [/that gives birth/gi, 'that calves'],
    [/months of birth/gi, 'months of calving'],
  ],
  pigs: [
    [/wool, milk or eggs/gi, 'what else is sold of'],
    [/conceive for a birth month/gi, 'conceive for a farrowing month'],
    [/that gives birth/gi, 'that farrows'],
    [/months of birth/gi, 'months of farrowing'],
  ],
  layers: birds('laying flock'),
  ducks: [...birds('laying flock'), asHens],
  geese: [...birds('breeding flock'), asHens],
  turkeys: [...birds('breeding flock'), asHens],
}

function birds(flock: string): readonly (readonly [RegExp, string])[] {
  return [
    [/wool, milk or eggs/gi, 'eggs'],
    [/pounds, gallons, dozens/gi, 'Empty: the dozen'],
    [/yield of it/gi, 'yield of eggs'],
    [/females that conceive for a birth month/gi, 'females that hatch a brood in a hatching month'],
    [/born alive per female that gives birth/gi, 'of a brood, hatched alive, per female that hatches'],
    [/months of birth/gi, 'months of hatching'],
    [/lost before weaning/gi, 'lost in the brooder'],
    [/the latest birth that is weaned/gi, 'the latest hatch that is out of the brooder'],
    [/weaned at an age/gi, 'out of the brooder at an age'],
    [/from weaning to sale/gi, 'from the brooder to sale'],
    [/of those born/gi, 'of those hatched'],
    [/of those weaned/gi, 'of those out of the brooder'],
    [/grown stock/gi, 'grown birds'],
    [/grown head/gi, 'grown bird'],
    [/hanging weight/gi, 'dressed weight'],
    [/\bborn\b/gi, 'hatched'],
    [/(?<=the )breeding herd/gi, flock],
    [/(?<=\bthe )herd/gi, 'flock'],
    [/breeding stock/gi, 'stock'],
  ]
}

/** Longer phrases first: each is said before a shorter one could take a part of it. */
const phrases: readonly (readonly [RegExp, readonly [keyof SpeciesWords, 0 | 1]])[] = [
  [/\byoung females(?= kept)/gi, ['kept', 1]],
  [/\bfemale young(?= kept)/gi, ['kept', 1]],
  [/\bbreeding females\b/gi, ['female', 1]],
  [/\bbreeding female\b/gi, ['female', 0]],
  [/\byoung ones?(?= (sells|that found|waits))/gi, ['sold', 0]],
  [/\byoung one\b/gi, ['young', 0]],
  [/\byoung(?= (sold|that are sold|without a market|for sale))/gi, ['sold', 1]],
  [/\byoung(?= (born|lost|of|in))/gi, ['young', 1]],
  [/\bfemales\b/gi, ['female', 1]],
  [/\bfemale\b/gi, ['female', 0]],
  [/\bmales\b/gi, ['male', 1]],
  [/\bmale\b/gi, ['male', 0]],
]

const asBegun = (found: string, word: string): string =>
  /^[A-Z]/.test(found) ? word[0]!.toUpperCase() + word.slice(1) : word
