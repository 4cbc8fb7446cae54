// What the bad tenth have in common, in words a couple can use: the factor that tells it best from the rest, and how well.
import { formatPercent } from '#money/format.ts'
import type { BadTenth } from './outcome.ts'
import { earlyYears } from './path-factors.ts'

/** Factors that tell less than this from one half are not worth a sentence. */
const tells = 0.1

/** One sentence for the best separating factor, one for the next where it tells too; or that nothing drawn tells. */
export function factorSentences(badTenth: readonly BadTenth[], most = 2): string[] {
  const telling = badTenth.filter((each) => Math.abs(each.lowerWhenBad - 0.5) >= tells).slice(0, most)
  if (telling.length === 0)
    return [
      'The worst tenth of simulations have nothing in common that sets them apart: they fail as the others do.',
    ]
  return telling.map((each, place) =>
    place === 0 ? `In the worst tenth ${factorSentence(each)}` : `There ${factorSentence(each)}`,
  )
}

function factorSentence({ factor, meanOfBad, meanOfRest }: BadTenth): string {
  const { name, write } = factorWords[factor]
  return `${name} ${write(meanOfBad)}, against ${write(meanOfRest)} in the rest.`
}

const perYear = (value: number) => `${formatPercent(Math.expm1(value), 1)} a year`
const ofExpected = (value: number) => `${formatPercent(value, 1)} of the expected`
const years = (value: number) => `${(value / 12).toFixed(1)} years`

const early = `in the first ${earlyYears} years`
const factorWords: Record<BadTenth['factor'], { name: string; write(value: number): string }> = {
  stocksEarly: { name: `stocks grew above prices ${early} by`, write: perYear },
  stocksLater: {
    name: 'stocks grew above prices in the fifteen years after the first ten by',
    write: perYear,
  },
  bondsEarly: { name: `bonds grew above prices ${early} by`, write: perYear },
  inflationEarly: { name: `prices rose ${early} by`, write: perYear },
  inflationLater: { name: 'prices rose in the fifteen years after the first ten by', write: perYear },
  seasonEarly: { name: `seasons brought ${early}`, write: ofExpected },
  seasonLater: { name: 'seasons brought in the fifteen years after the first ten', write: ofExpected },
  premiumEarly: { name: `premiums rose ${early} by`, write: perYear },
  care: { name: 'care cost over the whole plan', write: ofExpected },
  lastDeath: { name: 'the last of you died after', write: years },
  firstDeath: { name: 'the first death came after', write: years },
  workLost: { name: 'work was first lost after', write: years },
}
