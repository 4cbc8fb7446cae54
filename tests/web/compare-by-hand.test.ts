// Every row of Compare for plans that go below the floor and run out, worked by hand: our own invention, a cooper alone, 2,000 a month,
// 300 of it drawn from a farm that sells 3,600 a year, 1,200 of it a pension that ends; 25,000 saved, a floor of 6,000, no tax, steady
// prices, and 61 months until the month of his 55th birthday.
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { type PlanInput, planSchema } from '#plan/plan.ts'
import { courseWorkers } from '#web/forms/course-workers.ts'
import { type TestApp, testApp } from './test-app.ts'

// Workers start slowly on a busy machine.
vi.setConfig({ testTimeout: 120_000 })

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2027-01-10' })
  app.openSides()
})
afterEach(async () => {
  app.close()
  await courseWorkers().close()
})

const paidUntil = (to: string): PlanInput => ({
  name: 'Ours',
  startMonth: '2027-01',
  household: {
    people: [{ id: 'wim', name: 'Wim', born: '1977-01-05', planToAge: 55 }],
    living: [{ id: 'living', name: 'Living', perMonth: 2000 }],
    pay: [{ id: 'fund', name: 'Fund', kind: 'fixedPension', person: 'wim', perMonth: 1200, to }],
    floor: { kind: 'dollars', dollars: 6000 },
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 25_000 }] },
  farm: { enterprises: [{ id: 'staves', name: 'Staves', salesPerUnit: 3600 }] },
  draw: { policy: 'steps', steps: [{ from: '2027-01', perMonth: 300 }] },
  tax: { method: 'none' },
  assumptions: { inflation: 0, bills: 0, premiumGrowth: 0 },
  chance: {
    markets: 'stated',
    billsSpread: 0,
    inflationSpread: 0,
    seasons: false,
    lives: false,
    careSpread: 0,
  },
  storms: [{ id: 'roof', name: 'Roof', from: '2027-06', months: 1, oneOffCost: 9000 }],
})

test('rows of plans that cross the floor and run out are what a hand works out', async () => {
  app.savePlan(planSchema.parse(paidUntil('2028-12')), { planId: 'longer', name: 'Longer' })
  app.savePlan(planSchema.parse(paidUntil('2027-12')), { planId: 'shorter', name: 'Shorter' })
  const address = '/runway/compare?plan=longer&plan=shorter&storms=yes'
  const rows = async () => {
    const page = await (await app.get(address)).text()
    return (title: string) => {
      const cells = new RegExp(`<th scope="row"[^>]*>${title}</th>(.*?)</tr>`, 's').exec(page)![1]!
      return [...cells.matchAll(/<td[^>]*>(.*?)<\/td>/gs)].map(([, cell]) =>
        cell!.replaceAll(/<[^>]+>/g, ' ').trim(),
      )
    }
  }
  const row = await rows()
  // 500 a month out of savings while there is a pension, 1,700 after it. Longer: 13,000 after 24 months, 6,200 after 28, 4,500 after 29;
  // 1,100 after 31, so that 600 of month 32 and 1,700 of 29 more are not met. Shorter: 19,000 after 12, 7,100 after 19, 5,400 after 20; 300
  // after 23, so that 1,400 of month 24 and 1,700 of 37 more are not met.
  expect(row('Months left')).toEqual(['28', '19'])
  expect(row('Floor crossed')).toEqual(['May 2029', 'August 2028'])
  expect(row('Carry month')).toEqual(['none', 'none'])
  expect(row('Runs short')).toEqual(['August 2029', 'December 2028'])
  expect(row('Lowest savings')).toEqual(['$0, August 2029', '$0, December 2028'])
  expect(row('Unmet costs')).toEqual(['$49,900', '$64,300'])
  expect(row('Savings at the end')).toEqual(['$0', '$0'])
  expect(row('First draw of the plan')).toEqual(['January 2027', 'January 2027'])
  // With 9,000 for the roof in month 6: 6,000 after 20 and 5,500 after 21; 10,000 after 12, 6,600 after 14 and 4,900 after 15.
  expect(row('In a bad year')).toEqual(['20 months: Roof, lowest $0', '14 months: Roof, lowest $0'])
  expect(row('One time in ten')).toEqual(['not run', 'not run'])

  for (const planId of ['longer', 'shorter']) await simulated(planId)
  expect((await rows())('One time in ten')).toEqual(['28 months or fewer', '19 months or fewer'])
})

/** In which nothing is left to chance: each simulation is the plan itself. */
async function simulated(planId: string): Promise<void> {
  const opened = await app.post('/runway/compare/open', { planId })
  const headers = { cookie: opened.headers.getSetCookie()[0]!.split(';')[0]! }
  const started = await app.post('/runway/chance', { paths: '1000', seed: '1', from: 'chance' }, headers)
  expect(started.status).toBe(303)
  const job = started.headers.get('location')!.replace('/runway/chance', '/runway/chance.json')
  const isRunning = async () =>
    ((await (await app.get(job, headers)).json()) as { run: { status: string } }).run.status === 'running'
  while (await isRunning()) await new Promise((resolve) => setTimeout(resolve, 50))
}
