// Random farms for the farm's pages: what was drawn, with a lump without hours, stock of some kind, and a market that may take none of it.
import fc from 'fast-check'
import { herdKinds } from '#farm/herd/herd-document.ts'
import { readPlan } from '#plan/upgrade.ts'
import { randomPlan } from '../runway/random-plan.ts'

/** A drawn plan whose farm has, beside what was drawn, a lump without hours, now and then stock of some kind, and a market that may take none of it. */
export const randomFarm = fc
  .tuple(
    randomPlan(),
    fc.integer({ min: 0, max: 90_000 }),
    fc.constantFrom(null, ...herdKinds),
    fc.record({
      markets: fc.boolean(),
      trips: fc.constantFrom(0, 1, 4),
      growth: fc.constantFrom(
        undefined,
        { perYear: 0.2, from: '2028-03', years: 4 },
        { perYear: -0.5, from: '2020-01' },
      ),
      seat: fc.constantFrom(undefined, { from: '2027-05', chance: 0 }, { from: '2027-05', chance: 0.4 }),
      saleMonths: fc.option(fc.uniqueArray(fc.integer({ min: 1, max: 12 }), { maxLength: 4 }), {
        nil: undefined,
      }),
      waitMonths: fc.integer({ min: 0, max: 12 }),
      ownedAlready: fc.boolean(),
      meat: fc.constantFrom(
        undefined,
        { hangingWeight: 60 },
        { hangingWeight: 60, packagedShare: 0.6, cutPrice: 9, quarterShare: 0.4, quarterPrice: 7 },
      ),
      wage: fc.option(fc.integer({ min: 0, max: 40 }), { nil: undefined }),
    }),
  )
  .map(([plan, sales, kind, more]) => {
    const lump = { id: 'whole-farm', name: 'The farm as it is', salesPerUnit: sales, costsPerUnit: sales / 3 }
    const { markets, trips, growth, seat, saleMonths, wage, ...rest } = more
    const herd = {
      id: 'stock',
      name: 'Stock',
      kind,
      start: plan.startMonth,
      breedingFemales: 9,
      carryingLimit: 20,
      prices: { youngSold: 120 },
      rates: saleMonths ? { saleMonths } : {},
      markets: markets ? ['fair'] : [],
      ...rest,
    }
    const farm = {
      ...plan.farm,
      enterprises: [lump, ...plan.farm.enterprises.slice(0, 2)],
      markets: [...plan.farm.markets, { id: 'fair', name: 'Fair', trips, salesPerTrip: 300, growth, seat }],
      herds: kind === null ? [] : [herd],
      hired: { ...plan.farm.hired, ...(wage === undefined ? {} : { wage }) },
    }
    const read = readPlan({ ...plan, farm })
    if (!read.ok) throw new Error(JSON.stringify(read.faults))
    return read.plan
  })
