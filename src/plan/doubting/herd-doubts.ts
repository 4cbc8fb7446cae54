// What is asked of a herd: more heads than the land is said to carry, of which those above are left out; prices that were left at nothing;
// and months of sale for which young that are of their age wait long.
import { monthNames } from '#calendar/month.ts'
import type { Herd } from '#farm/herd/herd-document.ts'
import { ratesOf } from '#farm/herd/herd-rates.ts'
import { firstSales } from '#farm/herd/sale-age.ts'
import { speciesWords } from '#farm/herd/species-words.ts'
import { yearTotal } from '#farm/seasonal.ts'
import type { Doubt } from '../doubt.ts'
import type { Plan } from '../plan.ts'

export const herdDoubts = ({ farm }: Plan): Doubt[] =>
  farm.herds.flatMap((herd, place): Doubt[] =>
    [tooMany(herd), earnsNothing(herd), costsNothing(herd), waitsLong(herd)].flatMap((doubt) =>
      doubt
        ? [
            {
              path: ['farm', 'herds', place, ...doubt.at],
              message: `${herd.name}: ${doubt.says}`,
              asks: true,
            },
          ]
        : [],
    ),
  )

interface Asked {
  at: readonly string[]
  says: string
}

const tooMany = ({ kind, breedingFemales, carryingLimit }: Herd): Asked | null =>
  breedingFemales > carryingLimit
    ? {
        at: ['carryingLimit'],
        says: `${breedingFemales} ${speciesWords[kind].female[1]} begin here and ${carryingLimit} are carried, so the plan goes on with ${carryingLimit}. Is that so?`,
      }
    : null

/** Neither young nor culls, meat, milk, wool or eggs have a price. */
const earnsNothing = ({ prices, meat, productPerFemale }: Herd): Asked | null => {
  const sold = [
    prices.youngSold,
    prices.cullFemale,
    meat?.wholePrice,
    meat?.halfPrice,
    meat?.quarterPrice,
    meat?.cutPrice,
    yearTotal(productPerFemale),
  ]
  return sold.some((price) => (price ?? 0) > 0)
    ? null
    : {
        at: ['prices', 'youngSold'],
        says: 'nothing that it gives has a price, so the plan counts no sale of it. Is that so?',
      }
}

const costsNothing = ({ kind, prices, breedingFemales, ownedAlready }: Herd): Asked | null =>
  ownedAlready || breedingFemales === 0 || prices.breedingFemale > 0
    ? null
    : {
        at: ['prices', 'breedingFemale'],
        says: `${speciesWords[kind].female[1]} arrive that cost nothing and were not yours before. Is that so?`,
      }

/** Longer than this no young that could be sold are kept without being meant to. */
const longWait = 6

const waitsLong = (herd: Herd): Asked | null => {
  const rates = ratesOf(herd)
  const late = firstSales(rates).find(({ age }) => age - rates.saleAgeMonths > longWait)
  if (late === undefined) return null
  const of = monthNames[(late.birth + rates.saleAgeMonths - 1) % 12]
  return {
    at: ['rates', 'saleMonths'],
    says: `${speciesWords[herd.kind].sold[1]} of ${monthNames[late.birth - 1]} are ${rates.saleAgeMonths} months old in ${of} and wait for ${monthNames[late.sale - 1]}, when they are ${late.age}. Is that so?`,
  }
}
