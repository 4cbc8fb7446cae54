// What is drawn beyond the plan's draws to hold the floor, told with what of the planned ones then goes unpaid: months made by hand.
import { expect, test } from 'vitest'
import { addMonths, monthText, parseMonth } from '#calendar/month.ts'
import { calledOn, calledWords } from '#runway/farm/called-on.ts'

/** From March 2028; whatever is left out of a month is 0, and savings are 9,000 over a floor of 8,000. */
const monthsOf = (...list: { drawToHoldFloor?: number; unmetDraw?: number; spendable?: number }[]) =>
  list.map((one, k) => ({
    month: monthText(addMonths(parseMonth('2028-03')!, k)),
    drawToHoldFloor: 0,
    unmetDraw: 0,
    spendable: 9000,
    floor: 8000,
    ...one,
  }))
const said = (months: ReturnType<typeof monthsOf>) => calledWords(calledOn(months)!)

test('where savings are below the floor in that month all the same, they fall less far below it', () => {
  expect(said(monthsOf({}, { drawToHoldFloor: 700, spendable: 6500 }))).toBe(
    'From April 2028 farm cash that can be spared is drawn beyond the planned draws, so that savings fall less far below the floor: $700 in all.',
  )
  expect(said(monthsOf({ drawToHoldFloor: 700, spendable: 8000 }))).toContain(
    'savings do not fall below the floor: $700',
  )
  expect(calledOn(monthsOf({}, { unmetDraw: 50 }))).toBe(null)
})

test('planned draws that go unpaid after it are laid to it, with the net of both', () => {
  const after = monthsOf(
    { drawToHoldFloor: 900 },
    { unmetDraw: 400 },
    { drawToHoldFloor: 100 },
    { unmetDraw: 300 },
  )
  expect(calledOn(after)).toMatchObject({ dollars: 1000, unpaid: 700, taken: 700 })
  expect(said(after)).toMatch(
    /: \$1,000 in all\. Of the planned draws \$700 cannot be paid, because this cash is gone by then\. Over the whole plan the farm pays \$300 more than planned in all\.$/,
  )
})

test('what goes unpaid before it is the farm’s own, and the net can be less than planned', () => {
  const before = monthsOf({ unmetDraw: 1200 }, { drawToHoldFloor: 500 })
  expect(calledOn(before)).toMatchObject({ dollars: 500, unpaid: 1200, taken: 0 })
  expect(said(before)).toMatch(
    / Of the planned draws \$1,200 cannot be paid\. Over the whole plan the farm pays \$700 less than planned in all\.$/,
  )
})

test('both are counted over the same ten years, the plan’s first', () => {
  const years = monthsOf(...Array.from({ length: 130 }, () => ({})))
  years[119] = { ...years[119]!, drawToHoldFloor: 200 }
  years[120] = { ...years[120]!, drawToHoldFloor: 5000, unmetDraw: 5000 }
  expect(calledOn(years)).toMatchObject({ dollars: 200, unpaid: 0 })
  expect(said(years)).toContain(': $200 in the first ten years.')
})

test('of what goes unpaid both before it and after, only what it had taken is laid to it', () => {
  const both = monthsOf(
    { unmetDraw: 1200 },
    { drawToHoldFloor: 500 },
    { unmetDraw: 800 },
    { drawToHoldFloor: 200 },
  )
  expect(calledOn(both)).toMatchObject({ dollars: 700, unpaid: 2000, taken: 500 })
})
