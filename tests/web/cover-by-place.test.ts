// Health answers from income, place and ages alone: a state's programs need no premiums of a marketplace.
import { afterEach, expect, test } from 'vitest'
import { formatDollars } from '#money/format.ts'
import type { PlanInput } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { coverageLimits } from '#rules/coverage/coverage-limits.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { lawFor } from '#rules/law.ts'
import { programPovertyLine } from '#rules/marketplace/premium-credit.ts'
import type { StateCode } from '#rules/places/state-names.ts'
import type { CoverFigures } from '#today/cover/figures.ts'
import type { IncomeRooms } from '#today/cover/income-room.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

/** Wren and Odd in Oregon with a child of six, paid so much a month, and nothing said of any premium. */
const family = (perMonth: number, more: PlanInput['health'] = {}): PlanInput => ({
  startMonth: '2026-01',
  household: {
    place: { state: 'OR' },
    people: [
      { id: 'wren', name: 'Wren', born: '1985-05-02' },
      { id: 'odd', name: 'Odd', born: '1986-08-20' },
    ],
    dependents: [{ id: 'ash', name: 'Ash', born: '2019-03-03' }],
    pay: [{ id: 'shop', name: 'Shop', person: 'wren', perMonth }],
    living: [{ id: 'living', name: 'Living', perMonth: 2000 }],
  },
  health: more,
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 50_000 }] },
})

const shown = async (document: PlanInput, path = '/cover') => {
  app = testApp({ today: '2026-01-05' })
  const read = readPlan(document)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  app.savePlan(read.plan, { planId: 'plan' })
  const page = await (await app.get(path)).text()
  const figures = (await (await app.get(`${path}.json`)).json()) as Extract<CoverFigures, { status: 'read' }>
  return { page: page.replace(/\s+/g, ' '), figures }
}

test('who is on Medicaid, up to which income, and how much room is left, without a premium', async () => {
  const line = programPovertyLine(lawFor(2026, steadyIndexing(0)), 0, 3)
  const { adult } = coverageLimits('OR', '2026-01')
  const { page, figures } = await shown(family(2000))
  const sight = figures.inSight!
  expect(sight.bands[sight.standsOn]!.people.map(({ kind }) => kind)).toEqual([
    'Medicaid',
    'Medicaid',
    'Medicaid',
  ])
  // 24,000 of pay, and the adults' line by the guidelines of 2026.
  const medicaid = sight.room.rooms[0]!
  expect(medicaid.line).toBe('Medicaid line')
  expect(medicaid.incomeAt).toBeCloseTo((line * adult) / 100, 0)
  expect(medicaid.incomeLeft).toBeCloseTo((line * adult) / 100 - 24_000, 0)
  expect(page).toContain('At a household income of $24,000 in 2026')
  expect(page).toContain('Medicaid')
  expect(page).toContain('is not in the plan yet')
  expect(page).not.toContain('You have not entered who is insured')
  expect(page).not.toMatch(/Infinity|NaN/)
})

test('beyond the line the adults have nothing and the child has its program; no line of the marketplace is told', async () => {
  const { page, figures } = await shown(family(5000))
  const sight = figures.inSight!
  expect(sight.bands[sight.standsOn]!.people).toEqual([
    { name: 'Wren', kind: 'none', later: [] },
    { name: 'Odd', kind: 'none', later: [] },
    { name: 'Ash', kind: 'children’s program', later: [] },
  ])
  expect(sight.room.now.onMedicaid).toBe(false)
  expect(sight.room.rooms.map(({ line }) => line)).toEqual(['children’s program line'])
  expect(page).not.toMatch(/Infinity|NaN/)
})

test('members without a premium are the same, and the credit’s page asks for it', async () => {
  const members = { marketplace: { members: [{ person: 'wren' }, { person: 'odd' }] } }
  const { page } = await shown(family(2000, members))
  expect(page).toContain('At a household income of $24,000 in 2026')
  app.close()
  const credit = await shown(family(5000, members), '/cover/credit')
  expect(credit.page).toContain('is not in the plan yet')
})

test('with premiums all is as before, the answer beside it', async () => {
  const { page, figures } = await shown(
    family(5000, {
      marketplace: {
        members: [{ person: 'wren' }, { person: 'odd' }],
        planAt21: 300,
        benchmarkAt21: 300,
      },
    }),
  )
  expect(figures.inSight!.knowsPremiums).toBe(true)
  expect(page).toContain('Premium a month after the credit')
})

test('by which year’s guidelines a basic health program goes is said, and where that was not checked', async () => {
  const at = async (state: StateCode) => {
    const document = family(3000)
    const { page, figures } = await shown(
      { ...document, household: { ...document.household, place: { state } } },
      '/cover/place',
    )
    app.close()
    return { page, level: figures.place!.basicLevel }
  }
  // MinnesotaCare takes the guidelines of the year before; New York those of the year (37,650 for one in 2024, 250 % of 15,060).
  expect((await at('MN')).page).toContain('The basic health program goes by the FPL of 2025.')
  expect((await at('NY')).page).toContain('The basic health program goes by the FPL of 2026.')
  expect((await at('DC')).page).toContain('That was not checked: ask the program.')
  expect((await at('PA')).level).toBeNull()
})

test('a county whose cheapest bronze plan is dearer than its benchmark says so', async () => {
  const at = async (county: string) => {
    const document = family(3000)
    const place = { state: 'VA' as const, county }
    const { page } = await shown({ ...document, household: { ...document.household, place } }, '/cover/place')
    app.close()
    return page
  }
  // Fairfax, rating area 10: 272 at 21 for bronze against 267 for the benchmark of 2026.
  expect(await at('Fairfax County')).toContain('more than the benchmark plan, a silver one')
  expect(await at('Accomack County')).not.toContain('more than the benchmark plan, a silver one')
})

/** Oregon’s basic health program asks no premium, so that passing to it from Medicaid costs nothing that is known. */
const twoProgramsThen = (perMonth: number): PlanInput => {
  const document = family(perMonth, {
    marketplace: { members: [{ person: 'wren' }, { person: 'odd' }], planAt21: 300, benchmarkAt21: 300 },
  })
  return { ...document, household: { ...document.household, dependents: [] } }
}

test('room is said up to the line that costs, as the question of income room says it; a program that passes to another is named on the way', async () => {
  const { page, figures } = await shown(twoProgramsThen(2000))
  const [medicaid, basic] = figures.inSight!.room.rooms
  expect([medicaid!.line, basic!.line]).toEqual(['Medicaid line', 'basic program line'])
  expect(medicaid!.costOfCrossing).toBeLessThan(1)
  // 24,000 of pay; guidelines for two of 2026 (21,640) and 2025 (21,150): 138 % of the one, 200 % of the other in Oregon’s program.
  expect(basic!.costOfCrossing).toBeGreaterThan(100)
  const room = formatDollars(basic!.extraLeft - 1)
  expect(page).toContain(
    `You can earn <strong>${room} more</strong> in other income in 2026 before coverage costs more by a step of ${formatDollars(basic!.costOfCrossing)}`,
  )
  expect(page).toContain(
    `From ${formatDollars(medicaid!.extraLeft - 1)} more on, ${medicaid!.moves.map(({ name }) => name).join(' and ')} have the basic health program instead.`,
  )
  expect(page).toContain(`data-title="As other income">${room}</td>`)
  const question = await (await app.get('/runway/questions/income-room')).text()
  expect(question).toContain(
    `there is room for ${room} more of other income before the line of the basic health program; going over it costs ${formatDollars(basic!.costOfCrossing)}`,
  )
})

test('a step that costs less than the hundred dollars that cross it is told among the limits, and no page counts room to it', async () => {
  const { page, figures } = await shown(twoProgramsThen(4500))
  const sight = figures.inSight!
  // 54,000 of pay for two is 255 % of 21,150: the next whole percent is 211.50 off or less, and costs a few dollars of credit.
  const next = sight.room.rooms[0]!
  expect(next.line).toBe('next percent')
  expect(next.costOfCrossing).toBeGreaterThan(1)
  expect(next.costOfCrossing).toBeLessThan(100)
  const asked = (await (await app.get('/runway/questions/income-room.json')).json()) as IncomeRooms
  expect(sight.cliff!.line).not.toBe('next percent')
  expect(asked.years[0]!.cliff).toMatchObject({ line: sight.cliff!.line, extraLeft: sight.cliff!.extraLeft })
  const room = formatDollars(sight.cliff!.extraLeft - 1)
  expect(page).toContain(`You can earn <strong>${room} more</strong> in other income`)
  expect(asked.sentence).toContain(`room for ${room} more of other income`)
})

test('percents of the poverty level name the year of its guidelines', async () => {
  const { page } = await shown(twoProgramsThen(2000))
  const credit = await (await app.get('/cover/credit')).text()
  expect(credit.replace(/\s+/g, ' ')).toContain(
    '113% of the federal poverty level (FPL) of 2025 for 2, by which the credit goes',
  )
  expect(page).toMatch(/up to \$29,863, 138% of FPL of 2026/)
  expect(page).toMatch(/up to \$4\d,\d{3}, 200% of FPL of 202[56]/)
})

// The level of 2026 for three is 27,320 dollars (ASPE, read). Wren's 20 hours a week are 20 × 52 ÷ 12 = 87 a month; Odd has none.
test('Georgia’s Medicaid for adults who work is told up to the poverty level, and counted in no figure', async () => {
  const inGeorgia = (perMonth: number, state: 'GA' | 'OR' = 'GA'): PlanInput => {
    const document = family(perMonth)
    const pay = [{ id: 'shop', name: 'Shop', person: 'wren', perMonth, hoursPerWeek: 20 }]
    return { ...document, household: { ...document.household, place: { state }, pay } }
  }
  const { figures, page } = await shown(inGeorgia(1500))
  const sight = figures.inSight!
  expect(sight.medicaidByWork).toMatchObject({
    percent: 100,
    hours: 80,
    people: [
      { name: 'Wren', hoursMonthly: expect.closeTo(86.67, 1) },
      { name: 'Odd', hoursMonthly: 0 },
    ],
  })
  expect(sight.bands[sight.standsOn]!.people.map(({ kind }) => kind)).not.toContain('marketplace')
  expect(page).toContain(
    'This state covers adults up to 100% of the federal poverty level who show 80 hours a month',
  )
  expect(page).toContain('Wren: 87 hours a month')
  app.close()
  expect((await shown(inGeorgia(2400))).figures.inSight!.medicaidByWork).toBeNull()
  app.close()
  expect((await shown(inGeorgia(1500, 'OR'))).figures.inSight!.medicaidByWork).toBeNull()
})
