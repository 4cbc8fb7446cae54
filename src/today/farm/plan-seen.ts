// Plan → seen: what the notebook of the last twelve months says about figures of the plan, each with the farm it would make.
import { addDays, type Day } from '#calendar/day.ts'
import { headMoves, type KeptMarketDay, listMarketDays } from '#db/notebook/field-notes.ts'
import { listHours } from '#db/notebook/hours-store.ts'
import type { Books } from '#db/open.ts'
import type { Farm } from '#farm/farm-document.ts'
import { ratesOf } from '#farm/herd/herd-rates.ts'
import { inSpecies, speciesWords } from '#farm/herd/species-words.ts'
import { type HeadMove, herdSeen } from '#farm/notebook/heads.ts'
import { heldEachMonth, type Level, yearTotal } from '#farm/seasonal.ts'
import { type BatchRow, batchRows } from './batch-figures.ts'
import {
  batchOf,
  endOf,
  fewestMarketDays,
  type Seen,
  type SeenRow,
  scaled,
  shown,
  withEnterprise,
} from './seen-parts.ts'
import { seenPrices, seenShares, seenTakings } from './seen-sales.ts'

/** Hours of an enterprise speak for a year when they were written down in as many months. */
const fewestMonths = 9

export const seenRows = (books: Books, farm: Farm, today: Day): Seen[] => {
  const from = addDays(today, -364)
  const days = listMarketDays(books, from, today)
  const rows = batchRows(books)
  return [
    ...ofMarkets(farm, days),
    ...seenTakings(farm, days),
    ...seenShares(farm, days, today),
    ...ofHours(farm, books, from, today),
    ...ofBatches(farm, rows),
    ...seenPrices(farm, rows),
    ...ofHerds(farm, headMoves(books, today), today),
  ].filter(({ plan, seen }) => shown(plan) !== shown(seen))
}

type MarketField = 'hoursPerTrip' | 'milesPerTrip' | 'feePerTrip'

const marketFields: readonly {
  field: MarketField
  what: string
  unit: SeenRow['unit']
  of: (day: KeptMarketDay) => number | null
}[] = [
  {
    field: 'hoursPerTrip',
    what: 'Hours a trip',
    unit: 'hours',
    of: ({ minutes }) => (minutes === null ? null : minutes / 60),
  },
  { field: 'milesPerTrip', what: 'Miles a trip', unit: 'miles', of: ({ miles }) => miles },
  {
    field: 'feePerTrip',
    what: 'Fee a trip',
    unit: 'dollars',
    of: ({ feeCents }) => (feeCents === null ? null : feeCents / 100),
  },
]

const ofMarkets = (farm: Farm, days: readonly KeptMarketDay[]): Seen[] =>
  farm.markets.flatMap((market, at) => {
    const mine = days.filter(({ marketId }) => marketId === market.id)
    return marketFields.flatMap(({ field, what, unit, of }): Seen[] => {
      const told = mine.flatMap((day) => of(day) ?? [])
      if (told.length < fewestMarketDays) return []
      const seen = shown(told.reduce((a, b) => a + b, 0) / told.length)
      return [
        {
          key: `market.${market.id}.${field}`,
          of: market.name,
          what,
          unit,
          plan: middle(market[field]),
          seen,
          restsOn: `${told.length} market days`,
          taken: {
            ...farm,
            markets: farm.markets.map((one, index) => (index === at ? { ...one, [field]: seen } : one)),
          },
        },
      ]
    })
  })

const middle = (level: Level): number => heldEachMonth(level).reduce((a, b) => a + b, 0) / 12

const ofHours = (farm: Farm, books: Books, from: Day, to: Day): Seen[] => {
  const hours = listHours(books, from, to)
  const batches = new Map(batchRows(books).map(({ batch }) => [batch.id, batch.enterpriseId]))
  return farm.enterprises.flatMap((one, at) => {
    const tag = one.tag ?? one.id
    const mine = hours.filter(
      ({ subject }) =>
        (subject.kind === 'enterprise' && subject.id === tag) ||
        (subject.kind === 'batch' && batches.get(subject.id) === tag),
    )
    const months = new Set(mine.map(({ day }) => day.slice(0, 7))).size
    const plan = yearTotal(one.hoursPerUnit)
    if (months < fewestMonths || one.scale <= 0) return []
    const seen = shown(mine.reduce((sum, { minutes }) => sum + minutes, 0) / 60 / one.scale)
    return [
      {
        key: `enterprise.${one.id}.hours`,
        of: one.name,
        what: `Hours a ${one.unit} in a year`,
        unit: 'hours' as const,
        plan,
        seen,
        restsOn: `hours written down in ${months} of 12 months, over ${one.scale} units`,
        taken: withEnterprise(farm, at, { hoursPerUnit: scaled(one.hoursPerUnit, plan, seen) }),
      },
    ]
  })
}

/** Of those that lived, as the batch's own page has it, but for the pay of hired help, which a plan has apart; without costs of the books tied to it a batch tells nothing of costs. */
const ofBatches = (farm: Farm, rows: readonly BatchRow[]): Seen[] =>
  farm.enterprises.flatMap((one, at) => {
    const found = batchOf(one, rows, ({ result }) => result.costsCents > result.helpCents && result.lived > 0)
    if (!found) return []
    const plan = yearTotal(one.costsPerUnit)
    const { costsCents, helpCents, lived } = found.result
    const seen = shown((costsCents - helpCents) / lived / 100)
    const apart = helpCents === 0 ? '' : ', pay of hired help left out'
    return [
      {
        key: `enterprise.${one.id}.costs`,
        of: one.name,
        what: `Direct costs a ${one.unit}`,
        unit: 'dollars' as const,
        plan,
        seen,
        restsOn: `the batch ${found.batch.name}, ended ${endOf(found)}: over the ${lived} that were not lost${apart}`,
        taken: withEnterprise(farm, at, { costsPerUnit: scaled(one.costsPerUnit, plan, seen) }),
      },
    ]
  })

const ofHerds = (farm: Farm, moves: readonly HeadMove[], today: Day): Seen[] =>
  farm.herds.flatMap((herd, at) => {
    const seen = herdSeen(moves, herd.id, today)
    if (seen === null) return []
    const rates = ratesOf(herd)
    const row = (
      rate: 'birthsPerFemale' | 'youngLossToWeaning' | 'adultLossPerYear',
      what: string,
      unit: SeenRow['unit'],
      value: number | null,
    ): Seen[] =>
      value === null
        ? []
        : [
            {
              key: `herd.${herd.id}.${rate}`,
              of: herd.name,
              what: inSpecies(what, herd.kind),
              unit,
              plan: rates[rate],
              seen: shown(value),
              restsOn: `twelve months of head counts, from ${seen.females} ${speciesWords[herd.kind].female[seen.females === 1 ? 0 : 1]}`,
              taken: {
                ...farm,
                herds: farm.herds.map((one, index) =>
                  index === at ? { ...one, rates: { ...one.rates, [rate]: shown(value) } } : one,
                ),
              },
            },
          ]
    return [
      ...row(
        'birthsPerFemale',
        'Young born alive per female that gives birth',
        'young',
        seen.bornPerFemale === null || rates.conception <= 0 ? null : seen.bornPerFemale / rates.conception,
      ),
      ...row('youngLossToWeaning', 'Young lost before weaning', 'share', seen.youngLost),
      ...row('adultLossPerYear', 'Grown stock lost in a year', 'share', seen.adultsLost),
    ]
  })
