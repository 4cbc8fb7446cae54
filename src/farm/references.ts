// Who names whom on the farm: the markets that sell a line, what a purchase is for, what a phase changes.
import type { Farm } from './farm-document.ts'

export interface Reference {
  /** Where the name stands, from the farm on. */
  path: (string | number)[]
  /** A line of work is an enterprise or a herd. */
  names: 'market' | 'enterprise' | 'herd' | 'enterprise or herd' | 'facility'
  id: string
}

/** Names of things the farm does not have: whatever they should have changed would be left out of the course in silence. */
export const unknownReferences = (farm: Farm): { path: Reference['path']; message: string }[] => {
  const ids = (list: readonly { id: string }[]) => list.map((one) => one.id)
  const known: Record<Reference['names'], string[]> = {
    market: ids(farm.markets),
    enterprise: ids(farm.enterprises),
    herd: ids(farm.herds),
    'enterprise or herd': [...ids(farm.enterprises), ...ids(farm.herds)],
    facility: ids(farm.facilities),
  }
  return references(farm)
    .filter(({ names, id }) => !known[names].includes(id))
    .map(({ path, names, id }) => ({
      path,
      message: `The farm has no ${names} called ${id}. ${
        known[names].length > 0 ? `Choose one of: ${known[names].join(', ')}` : 'Add it first'
      }`,
    }))
}

const references = (farm: Farm): Reference[] => [
  ...(['enterprises', 'herds'] as const).flatMap((list) =>
    farm[list].flatMap((one, i) =>
      one.markets.map((id, k): Reference => ({ path: [list, i, 'markets', k], names: 'market', id })),
    ),
  ),
  ...farm.purchases.flatMap((one, i): Reference[] => [
    ...(one.for === undefined
      ? []
      : [{ path: ['purchases', i, 'for'], names: 'enterprise or herd' as const, id: one.for }]),
    ...(one.addsCapacity === undefined
      ? []
      : [
          {
            path: ['purchases', i, 'addsCapacity', 'facility'],
            names: 'facility' as const,
            id: one.addsCapacity.facility,
          },
        ]),
  ]),
  ...farm.facilities.flatMap((one, i) =>
    one.uses.map(
      ({ by }, k): Reference => ({
        path: ['facilities', i, 'uses', k, 'by'],
        names: 'enterprise or herd',
        id: by,
      }),
    ),
  ),
  ...farm.phases.flatMap((phase, i) => ofPhase(phase, ['phases', i])),
]

const ofPhase = (phase: Farm['phases'][number], at: Reference['path']): Reference[] => [
  ...phase.scales.map(
    (one, k): Reference => ({
      path: [...at, 'scales', k, 'enterprise'],
      names: 'enterprise',
      id: one.enterprise,
    }),
  ),
  ...phase.trips.map(
    (one, k): Reference => ({ path: [...at, 'trips', k, 'market'], names: 'market', id: one.market }),
  ),
  ...phase.herdLimits.map(
    (one, k): Reference => ({ path: [...at, 'herdLimits', k, 'herd'], names: 'herd', id: one.herd }),
  ),
]

/** The farm when nothing names this part of it any more. A line left without a market sells without limit: see `onlySoldAt`. */
export const withoutMentions = (farm: Farm, id: string): Farm => ({
  ...farm,
  enterprises: farm.enterprises.map((one) => ({
    ...one,
    markets: one.markets.filter((market) => market !== id),
  })),
  herds: farm.herds.map((one) => ({ ...one, markets: one.markets.filter((market) => market !== id) })),
  purchases: farm.purchases.map((one) => ({
    ...one,
    for: one.for === id ? undefined : one.for,
    addsCapacity: one.addsCapacity?.facility === id ? undefined : one.addsCapacity,
  })),
  facilities: farm.facilities.map((one) => ({ ...one, uses: one.uses.filter(({ by }) => by !== id) })),
  phases: farm.phases.map((phase) => ({
    ...phase,
    scales: phase.scales.filter((one) => one.enterprise !== id),
    trips: phase.trips.filter((one) => one.market !== id),
    herdLimits: phase.herdLimits.filter((one) => one.herd !== id),
  })),
})

/** Names of the lines of work that no other market sells. */
export const onlySoldAt = (farm: Farm, market: string): string[] =>
  [...farm.enterprises, ...farm.herds]
    .filter((one) => one.markets.length > 0 && one.markets.every((id) => id === market))
    .map((one) => one.name)

/** Ids of the markets at which a line of work sells. */
export const marketsNamed = (farm: Farm): Set<string> =>
  new Set([...farm.enterprises, ...farm.herds].flatMap((one) => one.markets))
