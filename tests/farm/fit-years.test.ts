// Plant starts that outgrow their house, worked by hand: what fits in which season, and what a purchase changes.
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { type FarmInput, farmSchema } from '#farm/farm-document.ts'
import { fitYears } from '#farm/fit/fit-years.ts'

/** Plant starts that grow by steps: 4 beds, 7 from 2029, 10 from 2031, in a house of 8. */
const input: FarmInput = {
  crew: [{ who: 'a', weeklyHours: 20 }],
  land: 2,
  enterprises: [
    {
      id: 'starts',
      name: 'Plant starts',
      unit: 'bed',
      scale: 4,
      scaleSteps: [
        { from: '2029-01', value: 7 },
        { from: '2031-01', value: 10 },
      ],
      salesPerUnit: 500,
      hoursPerUnit: 60,
      landPerUnit: 0.1,
    },
  ],
  facilities: [
    { id: 'house', name: 'Plant house', unit: 'beds', capacity: 8, uses: [{ by: 'starts', perUnit: 1 }] },
  ],
  purchases: [
    {
      id: 'wing',
      name: 'A wing of the house',
      cost: 4000,
      timing: 'when cash allows',
      month: '2027-01',
      addsCapacity: { facility: 'house', amount: 4 },
    },
  ],
}
const farm = farmSchema.parse(input)
const house = (bought: Map<string, number | null>) =>
  fitYears(farm, 2028, 5, bought as never).find(({ name }) => name === 'Plant house')!

test('a house of eight beds is over from the winter in which ten stand', () => {
  const never = house(new Map([['wing', null]]))
  expect(never.seasons).toHaveLength(20)
  expect(never.seasons.map(({ needed }) => needed).filter((_, at) => at % 4 === 2)).toEqual([4, 7, 7, 10, 10])
  expect(never.firstOver).toEqual({ year: 2031, season: 'winter' })
})

test('a wing that cash allows in February 2031 gives its room from the month after on, and not before', () => {
  const bought = house(new Map([['wing', month(2031, 2)]]))
  const of2031 = bought.seasons.filter(({ year }) => year === 2031)
  // Winter takes the least room of December, January and February: the last two are before it.
  expect(of2031.map(({ room, isOver }) => [room, isOver])).toEqual([
    [8, true],
    [12, false],
    [12, false],
    [12, false],
  ])
  expect(bought.seasons.filter(({ year }) => year === 2032).every(({ isOver }) => !isOver)).toBe(true)
})

test('land, hours and every other measure stand in the same picture', () => {
  const names = fitYears(farm, 2028, 2, new Map()).map(({ name }) => name)
  expect(names).toEqual(['Hours of crew and hired help', 'Land', 'Plant house'])
})
