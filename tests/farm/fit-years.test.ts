// Plant starts that outgrow their house, worked by hand: what fits in which season, and what a purchase changes.
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { type FarmInput, farmSchema } from '#farm/farm-document.ts'
import { fitYears } from '#farm/fit/fit-years.ts'
import { inStepCheck } from '#farm/in-step.ts'

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

// 20 hours a week are 20 × 365.25 ÷ 84 = 86.96 a month and 260.89 a season. 100 hours of July are within the summer and over their month, in
// which the plan leaves 13.04 undone; spread over the summer they fit.
test('a month whose hours nobody has is told, though its season has enough', () => {
  const hoursOf = (hoursPerUnit: number[]) =>
    inStepCheck(
      farmSchema.parse({
        crew: [{ who: 'a', weeklyHours: 20 }],
        enterprises: [{ id: 'garlic', name: 'Garlic', salesPerUnit: 900, hoursPerUnit }],
      }),
      2027,
    ).filter(({ measure }) => measure === 'hours')
  const [season, fullest] = hoursOf([0, 0, 0, 0, 0, 0, 100, 0, 0, 0, 0, 0])
  expect(season!.isOut).toBe(false)
  expect(season!.seasons[2]).toMatchObject({ needed: 100, room: expect.closeTo(260.89, 2) })
  expect(fullest!.says).toBe(
    'Hours in the fullest month: short by 13 hours in summer (100 hours needed, 87 hours there)',
  )
  expect(fullest!.seasons[2]!.over).toBeCloseTo(13.04, 2)
  expect(hoursOf([0, 0, 0, 0, 0, 40, 40, 20, 0, 0, 0, 0])).toHaveLength(1)
})
