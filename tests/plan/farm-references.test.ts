// Names within the farm: what a line, purchase, facility or phase names must be there.
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { type Plan, planSchema } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'

const sample = planSchema.parse(
  JSON.parse(readFileSync(new URL('../../sample/plan.json', import.meta.url), 'utf8')),
)

test('what the farm names and does not have is refused where it stands', () => {
  const messages = (change: (farm: Plan['farm']) => unknown) => {
    const document = structuredClone(sample)
    change(document.farm)
    const read = readPlan(document)
    return read.ok ? [] : read.faults.map((fault) => `${fault.path}: ${fault.message}`)
  }
  expect(messages(() => {})).toEqual([])
  expect(messages((farm) => farm.enterprises[0]!.markets.push('bazaar'))[0]).toMatch(
    /^farm\.enterprises\.0\.markets\.\d: The farm has no market called bazaar\. Choose one of: /,
  )
  expect(messages((farm) => farm.herds[0]!.markets.push('bazaar'))).toHaveLength(1)
  expect(messages((farm) => Object.assign(farm.purchases[0]!, { for: 'bees' }))[0]).toContain(
    'no enterprise or herd called bees',
  )
  expect(
    messages((farm) =>
      Object.assign(farm.purchases[0]!, { addsCapacity: { facility: 'attic', amount: 1 } }),
    )[0],
  ).toContain('farm.purchases.0.addsCapacity.facility: The farm has no facility called attic')
  expect(
    messages((farm) => {
      farm.phases[0]!.scales.push({ enterprise: 'bees', value: 1 })
      farm.phases[0]!.trips.push({ market: 'bazaar', value: 1 })
      farm.phases[0]!.herdLimits.push({ herd: 'yaks', value: 1 })
      farm.facilities.push({
        id: 'shed',
        name: 'Shed',
        unit: 'places',
        capacity: 1,
        uses: [{ by: 'yaks', perUnit: 1 }],
      })
    }).map((one) => /no (.*) called (\w+)/.exec(one)?.slice(1)),
  ).toEqual([
    ['enterprise or herd', 'yaks'],
    ['enterprise', 'bees'],
    ['market', 'bazaar'],
    ['herd', 'yaks'],
  ])
  expect(messages((farm) => farm.markets.push({ ...farm.markets[0]! }))[0]).toContain(
    'Two entries are called',
  )
})
