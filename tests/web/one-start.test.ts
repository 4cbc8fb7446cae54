// A household walked through the start by its forms, unlike the sample, and some weeks on: How sure, Questions, Slower years, Health, Farm and the
// terminal's figures say what Now says. Two invented weavers in Iowa with a child, a mortgage, a term loan, a card, and pay that ends next spring.
import { afterAll, afterEach, expect, test, vi } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import { cents } from '#money/cents.ts'
import { currentPlan } from '#today/current-plan.ts'
import type { NowFigures } from '#today/now/figures.ts'
import { continuedPlan } from '#today/projection/continued-plan.ts'
import { courseWorkers } from '#web/forms/course-workers.ts'
import { act, done } from '../db/fresh-books.ts'
import { accountIn, moveIn } from '../today/moved.ts'
import { filledForm } from './browser-form.ts'
import { expectSameNames, expectSameRooms, type RunwaySaid } from './other-rooms.ts'
import { type TestApp, testApp } from './test-app.ts'

vi.setConfig({ testTimeout: 300_000, hookTimeout: 60_000 })

let app: TestApp
afterEach(() => app.close())
afterAll(() => courseWorkers().close())

const json = async <Figures>(path: string) => (await (await app.get(path)).json()) as Figures
const sent = async (page: string, over: Record<string, string>) => {
  const reply = await app.post(page, await filledForm(app, page, over))
  expect([page, reply.status, reply.status === 303 ? '' : await reply.text()]).toEqual([page, 303, ''])
}

const balances: Record<string, string> = {
  'Household checking': '3,100',
  Savings: '58,000',
  'Retirement, traditional': '90,000',
  'Household card': '640',
  Mortgage: '96,000',
  'Farm checking': '14,500',
  'Term loan': '22,000',
}
const terms: Record<string, [rate: string, payment: string]> = {
  Mortgage: ['5.25', '720'],
  'Term loan': ['7', '440'],
}

/** The rows of a step by the name of their account. */
const rowsOf = async (page: string, list: string) => {
  const fields = await filledForm(app, page)
  const names = new Map(listAccounts(app.books).map(({ id, name }) => [String(id), name]))
  return Object.entries(fields).flatMap(([field, value]) => {
    const row = new RegExp(`^(${list}\\.\\d+)\\.account$`).exec(field)?.[1]
    return row ? [[row, names.get(String(value))!] as const] : []
  })
}

/** From April 1, 2027, by the forms alone; today is the tenth. */
const walked = async () => {
  app = testApp({ today: '2027-04-10' })
  await sent('/start/who', {
    farmName: 'Warp and Acre',
    state: 'IA',
    'people.0.name': 'Ansel',
    'people.0.born': '1977-05-14',
    'people.0.hours': '40',
    'people.1.name': 'Odile',
    'people.1.born': '1980-11-30',
    'people.1.hours': '12',
    'children.0.name': 'Wim',
    'children.0.born': '2015-02-20',
  })
  const held = (await rowsOf('/start/accounts', 'balances')).flatMap(([row, name]) =>
    name in balances ? [[`${row}.amount`, balances[name]!] as const] : [],
  )
  const savings = (await rowsOf('/start/accounts', 'balances')).find(([, name]) => name === 'Savings')![0]
  await sent('/start/accounts', {
    ...Object.fromEntries(held),
    [`${savings}.earns`]: '4.1',
    day: '2027-04-01',
  })
  const owed = (await rowsOf('/start/owned', 'loans')).flatMap(([row, name]) => [
    [`${row}.rate`, terms[name]![0]] as const,
    [`${row}.payment`, terms[name]![1]] as const,
  ])
  expect(owed).toHaveLength(4)
  await sent('/start/owned', Object.fromEntries(owed))
  await sent('/start/costs', {
    'pay.1.perMonth': '2,400',
    'pay.1.until': '2028-03',
    'pay.1.withheld': '12',
    living: '2,900',
    premium: '380',
    floorMonths: '3',
    farmSales: '36,000',
    farmCosts: '21,000',
    farmReserve: '4,000',
    drawNow: '400',
    drawLater: '900',
    drawLaterFrom: '2028-04',
  })
  // As far as anything here looks: twenty years fewer take half the time.
  await sent('/runway/plan/household', {
    'household.people.0.planToAge': '76',
    'household.people.1.planToAge': '74',
  })
}

/** April and May as they went: more spent than planned, a draw each. */
const twoMonths = () => {
  for (const month of ['04', '05']) {
    moveIn(app.books, 'household', `2027-${month}-20`, 'Off-farm pay', 'Household checking', 2112)
    moveIn(app.books, 'household', `2027-${month}-22`, 'Savings', 'Household checking', 2500)
    moveIn(app.books, 'household', `2027-${month}-24`, 'Household checking', 'Groceries', 3350)
    moveIn(app.books, 'household', `2027-${month}-25`, 'Household card', 'Clothing', 150)
    moveIn(app.books, 'household', `2027-${month}-26`, 'Household checking', 'Mortgage', 300)
    moveIn(app.books, 'farm', `2027-${month}-12`, 'Farm checking', 'Feed', 800)
    done(
      postCrossing(app.books, act(), {
        kind: 'draw',
        day: day(`2027-${month}-28`),
        amountCents: cents(40_000),
        fromAccountId: accountIn(app.books, 'farm', 'Farm checking'),
        toAccountId: accountIn(app.books, 'household', 'Household checking'),
        memo: '',
      }),
    )
  }
}

interface Chance {
  run: {
    status: string
    outcome: {
      aboveFloor: { share: number }
      held: { share: number }
      monthsLeft: { p50: number | null }
    }
    firstMonth: string
    bands: { month: string }[]
    expected: number[]
  }
}

const ended = async <Figures extends { run: { status: string } }>(address: string): Promise<Figures> => {
  for (;;) {
    const figures = await json<Figures>(address)
    if (figures.run.status !== 'running') return figures
    await new Promise((resolve) => setTimeout(resolve, 50))
  }
}

/** A page's work, started by its form and told by its JSON. */
const asked = async <Figures extends { run: { status: string } }>(
  page: string,
  form: Record<string, string>,
): Promise<Figures> => {
  const started = await app.post(page, form)
  expect(started.status).toBe(303)
  const told = await ended<Figures>(started.headers.get('location')!.replace(page, `${page}.json`))
  expect(told.run.status).toBe('done')
  return told
}

const expectOne = async (firstMonth: string, asksQuestion = true) => {
  const now = await json<NowFigures>('/now.json?storms=yes')
  const runway = await json<RunwaySaid>('/runway.json')
  const plan = now.plan as Extract<NowFigures['plan'], { status: 'read' }>
  expect(plan.status).toBe('read')
  expect(runway.months[0]!.month).toBe(firstMonth)
  expect([plan.monthsLeft, plan.floorMonth, plan.lowestDollars, plan.lowestMonth]).toEqual([
    runway.milestones.monthsLeft,
    runway.milestones.floorMonth,
    runway.milestones.lowestSpendable,
    runway.milestones.lowestMonth,
  ])
  const held = await expectSameRooms(app, runway, now, 'each fifth')
  expect(held.healthYears).toBeGreaterThan(20)
  expect(held.farmYears).toBeGreaterThan(4)
  const named = await expectSameNames(app, runway)
  expect(named.filter((path) => path.startsWith('/now ') || path.startsWith('/runway'))).not.toEqual([])
  // How sure: the expected course is that of Runway, from the same month; Questions run today's plan on the same draws.
  const draws = { paths: '60', seed: '5' }
  const chance = await asked<Chance>('/runway/chance', { ...draws, from: 'chance' })
  expect(chance.run.expected).toEqual(runway.months.map((one) => one.spendable))
  expect([chance.run.firstMonth, chance.run.bands[0]!.month]).toEqual([firstMonth, firstMonth])
  if (!asksQuestion) return { now, plan, runway }
  const question = await asked<{ run: { status: string; answer: { compared: Compared[] } } }>(
    '/runway/questions/draw',
    { ...draws, confidence: '90' },
  )
  const asPlanned = question.run.answer.compared.find(({ as }) => as === 'plan')!
  expect(asPlanned.standing.aboveFloor.share).toBe(chance.run.outcome.aboveFloor.share)
  expect(asPlanned.standing.held.share).toBe(chance.run.outcome.held.share)
  return { now, plan, runway }
}

interface Compared {
  as: string
  standing: { aboveFloor: { share: number }; held: { share: number } }
}

test('on the day of the start, two months on, and when the books have stopped: every page says what Now says', async () => {
  await walked()
  const first = await expectOne('2027-04')
  // 3,100 + 58,000 − 640 in the books on the first of April.
  expect(first.now.spendable.cents).toBe(6_046_000)
  twoMonths()
  app.setToday('2027-06-12')
  // The same two months are asked about once the books have stopped.
  const later = await expectOne('2027-06', false)
  const current = currentPlan(app.books)
  if (current.status !== 'read') throw new Error(current.status)
  const { plan } = continuedPlan(app.books, current.plan, day('2027-06-12'))
  // 61,100 − 640, and each month 2,112 in, 3,350, 150 and 300 out, 400 drawn; 53,000 of it in savings.
  expect(plan.savings.accounts.slice(0, 2).map(({ balance }) => balance)).toEqual([4884, 53_000])
  expect(later.now.spendable.cents).toBe(5_788_400)
  // Three months that no book holds are projected, and the lowest savings are those still to come.
  app.setToday('2027-09-12')
  const stopped = await expectOne('2027-06')
  expect(stopped.runway.milestones.countedFrom).toBe('2027-09')
  expect(stopped.plan.monthsLeft).toBe(later.plan.monthsLeft! - 3)
  expect(stopped.runway.milestones.lowestMonth >= '2027-09').toBe(true)
})
