// People and payees of a year: forms by the year's line, workers' wages by the law's tests and rates, papers held against the books.
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry, voidEntry } from '#db/ledger/ledger-store.ts'
import { type Cents, cents } from '#money/cents.ts'
import { type Plan, planSchema } from '#plan/plan.ts'
import { currentPlan } from '#today/current-plan.ts'
import { workedYear } from '#today/tax/tax-payments.ts'
import { peopleFigures } from '#today/year-pack/people-figures.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp

const idOf = (name: string, side = 'farm') => {
  const found = listAccounts(app.books).find((one) => one.sideId === side && one.name === name)
  if (!found) throw new Error(`No account ${side}/${name}`)
  return found.id
}

/** Amounts in dollars by account, which sum to zero. */
const post = (payee: string, on: string, amounts: Record<string, number>, sideId = 'farm') => {
  const body = act()
  done(
    postEntry(app.books, body, {
      sideId,
      day: day(on),
      payee,
      memo: '',
      source: 'form',
      lines: Object.entries(amounts)
        .filter(([, dollars]) => dollars !== 0)
        .map(([name, dollars]) => ({
          accountId: idOf(name, sideId),
          amountCents: cents(Math.round(dollars * 100)),
        })),
    }),
  )
  return body.formId
}

const figures = (year = 2025) => peopleFigures(app.books, year, currentPlan(app.books))
const page = async (year = 2025) => (await app.get(`/year-pack/people?year=${year}`)).text()

/** The form as a browser sends it, with changes by payee. */
const say = async (changes: Record<string, Record<string, string>>, year = 2025) => {
  const text = await page(year)
  const body: Record<string, string> = {
    formId: crypto.randomUUID(),
    basedOn: /name="basedOn" value="([^"]*)"/.exec(text)![1]!,
  }
  figures(year).payees.forEach(({ name, kind, formOnFile }, i) => {
    body[`payees.${i}.name`] = name
    body[`payees.${i}.kind`] = changes[name]?.kind ?? kind ?? ''
    body[`payees.${i}.sameAs`] = changes[name]?.sameAs ?? ''
    if (formOnFile) body[`payees.${i}.formOnFile`] = 'yes'
  })
  return { body, response: await app.post(`/year-pack/people?year=${year}`, body) }
}

beforeEach(() => {
  app = testApp({ today: '2026-02-10' })
  app.openSides()
})

afterEach(() => app.close())

describe('Forms 1099', () => {
  beforeEach(() => {
    post('R. Field', '2025-04-02', { 'Custom hire': 400, 'Farm checking': -400 })
    post('R Field', '2025-06-02', { 'Custom hire': 350, 'Farm checking': -350 })
    post('Hilltop Land', '2025-03-01', { 'Land rent': 1200, 'Farm checking': -1200 })
    post('Vet on Main', '2025-05-01', { 'Veterinary, breeding, medicine': 900, 'Farm card': -900 })
    post('Green Seed', '2025-02-01', { 'Seeds and plants': 3000, 'Farm checking': -3000 })
  })

  test('by payee, what a card paid apart; seed bought is in none of it', () => {
    expect(figures().lineCents).toBe(60_000)
    expect(
      figures().payees.map(({ name, workCents, rentCents, byCardCents, forms }) => [
        name,
        workCents,
        rentCents,
        byCardCents,
        forms,
      ]),
    ).toEqual([
      ['Hilltop Land', 0, 120_000, 0, ['1099-MISC']],
      ['R. Field', 40_000, 0, 0, []],
      ['R Field', 35_000, 0, 0, []],
      ['Vet on Main', 0, 0, 90_000, []],
    ])
  })

  test('two spellings of one payee are over the line together, and can be told apart again', async () => {
    const { body, response } = await say({
      'R Field': { sameAs: 'R. Field' },
      'R. Field': { kind: 'contractor' },
    })
    expect(response.status).toBe(303)
    expect((await app.post('/year-pack/people?year=2025', body)).status).toBe(303)
    expect(figures().payees.find(({ name }) => name === 'R. Field')).toMatchObject({
      workCents: 75_000,
      forms: ['1099-NEC'],
      spellings: ['R Field'],
      kind: 'contractor',
    })
    expect(await page()).toContain('Gets Form 1099-NEC. Their Form W-9 is not in your folder.')
    const text = await page()
    const again = await app.post('/year-pack/people?year=2025', {
      formId: crypto.randomUUID(),
      basedOn: /name="basedOn" value="([^"]*)"/.exec(text)![1]!,
      apart: 'R Field',
    })
    expect(again.status).toBe(303)
    expect(figures().payees.filter(({ name }) => name.startsWith('R'))).toHaveLength(2)
  })

  test('a company gets none; one that counts with another cannot stand for a third', async () => {
    await say({ 'Hilltop Land': { kind: 'company' } })
    expect(figures().payees.find(({ name }) => name === 'Hilltop Land')!.forms).toEqual([])
    const { response } = await say({
      'R Field': { sameAs: 'R. Field' },
      'R. Field': { sameAs: 'Vet on Main' },
    })
    expect(response.status).toBe(422)
    expect(await response.text()).toContain('counts with another itself')
  })

  test('hired labor, custom hire and rent without a payee are asked about; other costs without one are not', async () => {
    post('', '2025-08-02', { 'Custom hire': 700, 'Farm checking': -700 })
    post('', '2025-08-03', { Supplies: 50, 'Farm checking': -50 })
    expect(figures().namelessCents).toBe(70_000)
    expect(await (await app.get('/year-pack/print?year=2025')).text()).toContain(
      '$700.00 of hired labor, custom hire or rent is booked without a payee',
    )
  })

  test('a bank’s word in place of a payee is no payee: it is asked who got it, and no form names it', async () => {
    post('CHECK 1042', '2025-08-02', { 'Custom hire': 700, 'Farm checking': -700 })
    post('Check', '2025-08-03', { Supplies: 50, 'Farm checking': -50 })
    post('Check Point Fencing', '2025-08-04', { 'Custom hire': 100, 'Farm checking': -100 })
    expect(figures().payees.map(({ name }) => name)).not.toContain('CHECK 1042')
    expect(figures().payees.map(({ name }) => name)).toContain('Check Point Fencing')
    expect(figures().unnamed).toEqual({ names: ['CHECK 1042'], paidCents: 70_000, laborCents: 0 })
    const pack = await (await app.get('/year-pack/print?year=2025')).text()
    expect(pack).toContain('$700.00 was paid for work or rent to payees that only the bank’s word names')
    expect(pack).toContain('only the bank’s word (CHECK 1042)')
  })

  test('hired labor without a name is asked as pay of an employee or of a contractor, other work as a contractor’s', async () => {
    post('', '2025-08-02', { 'Hired labor': 900, 'Custom hire': 300, 'Farm checking': -1200 })
    post('CHECK 7', '2025-08-03', { 'Hired labor': 450, 'Farm checking': -450 })
    const pack = await (await app.get('/year-pack/print?year=2025')).text()
    expect(pack).toContain(
      '$1,200.00 of hired labor, custom hire or rent is booked without a payee: name who got it, and say of $900.00 of it, hired labor, whether an employee got it, who gets a Form W-2 and is on payroll, or a contractor, who may get a Form 1099.',
    )
    expect(pack).toContain(
      '(CHECK 7): name who got it, and say of it whether an employee got it, who gets a Form W-2',
    )
  })

  test('as long as nobody said who a payee is, its table has the form in doubt and no amount on it', async () => {
    const people = async () => (await app.get('/year-pack/people.csv?year=2025&table=payees')).text()
    expect(await people()).toContain(
      'Hilltop Land,,not said,0.00,1200.00,0.00,1099-MISC unless a company: not entered,,,',
    )
    await say({ 'Hilltop Land': { kind: 'contractor' } })
    expect(await people()).toContain('Hilltop Land,,contractor,0.00,1200.00,0.00,1099-MISC,,1200.00,')
  })

  test('the line is 2,000 from 2026 on (26 USC 6041(a))', () => {
    post('R. Field', '2026-01-20', { 'Custom hire': 1999, 'Farm checking': -1999 })
    expect(figures(2026).payees[0]).toMatchObject({ workCents: 199_900, forms: [] })
    post('R. Field', '2026-01-21', { 'Custom hire': 1, 'Farm checking': -1 })
    expect(figures(2026).payees[0]).toMatchObject({ forms: ['1099-NEC'] })
  })

  test('what was reversed counts nowhere', () => {
    const id = post('Late Job', '2025-07-01', { 'Repairs and upkeep': 700, 'Farm checking': -700 })
    done(voidEntry(app.books, act(), id, day('2026-02-10')))
    expect(figures().payees.map(({ name }) => name)).not.toContain('Late Job')
  })
})

describe('workers', () => {
  const pay = (name: string, on: string, gross: number, federal: number) => {
    // 7.65 percent of each: 6.2 and 1.45 (26 USC 3101, 3111).
    const own = Math.round(gross * 7.65) / 100
    return post(name, on, {
      'Hired labor': gross,
      'Employer’s payroll taxes': own,
      'Income tax kept back from pay': -federal,
      'Social Security and Medicare owed': -2 * own,
      'Farm checking': -(gross - federal - own),
    })
  }

  test('older books get the accounts at one press, once', async () => {
    const older = app.books.sqlite
    older.exec(
      "UPDATE accounts SET name = 'Old ' || id, tax_kind = NULL WHERE side_id = 'farm' AND tax_kind IN ('federal', 'payroll')",
    )
    expect(figures().hasPayrollAccounts).toBe(false)
    const body = { formId: crypto.randomUUID() }
    const path = '/year-pack/people/accounts?year=2025'
    expect([(await app.post(path, body)).status, (await app.post(path, body)).status]).toEqual([303, 303])
    expect(figures().hasPayrollAccounts).toBe(true)
    expect(idOf('Employer’s payroll taxes')).toBeGreaterThan(0)
    expect(await page()).not.toContain('Make them')
  })

  test('Form W-2 and Form 943 by hand', async () => {
    pay('Ann Hand', '2025-05-15', 2000, 150)
    pay('Ann Hand', '2025-08-15', 2400, 180)
    pay('Bo Hand', '2025-06-15', 100, 0)
    await say({ 'Ann Hand': { kind: 'worker' }, 'Bo Hand': { kind: 'worker' } })
    const [ann, bo] = figures().workers
    // 4,400 × 6.2 and 1.45 percent.
    expect(ann).toMatchObject({
      name: 'Ann Hand',
      grossCents: 440_000,
      federalCents: 33_000,
      payrollCents: 33_660,
      employerCents: 33_660,
      due: { isDue: true, socialSecurityCents: 27_280, medicareCents: 6380 },
    })
    // Under 150 dollars, but all together got 2,500 and more (26 USC 3121(a)(8)).
    expect(bo).toMatchObject({ due: { isDue: true, socialSecurityCents: 620, medicareCents: 145 } })
    expect(figures().farmPayroll).toMatchObject({
      workers: 2,
      wagesCents: 450_000,
      socialSecurityCents: 55_800,
      medicareCents: 13_050,
      withheldCents: 33_000,
      totalCents: 101_850,
    })
    expect(figures().payrollOwed.map(({ owedCents }) => owedCents)).toEqual([33_000, 68_850])
    expect(await page()).toContain('As the rates give.')
  })

  test('one worker of 140 dollars: none is due', async () => {
    post('Cy Hand', '2025-05-15', { 'Hired labor': 140, 'Farm checking': -140 })
    await say({ 'Cy Hand': { kind: 'worker' } })
    expect(figures().workers[0]!.due).toMatchObject({ isDue: false, socialSecurityCents: 0 as Cents })
    expect(await page()).toContain('Below both tests of farm wages')
  })
})

describe('papers that come', () => {
  beforeEach(() => {
    post('Bank', '2025-12-31', { Savings: 42.17, 'Interest and dividends': -42.17 }, 'household')
    post('School', '2025-03-31', { 'Household checking': 18_000, 'Off-farm pay': -18_000 }, 'household')
    post('Co-op', '2025-11-30', { 'Farm checking': 210, 'Cooperative distributions': -210 })
  })

  test('each by the books, and what it says beside', async () => {
    expect(figures().papers.map(({ paper, bookedCents }) => [paper, bookedCents])).toEqual([
      ['1099-PATR', 21_000],
      ['W-2', 1_800_000],
      ['1099-INT', 4217],
    ])
    const body = { basedOn: '0', [`paper.a${idOf('Off-farm pay', 'household')}`]: '18,250' }
    const path = '/year-pack/people/papers?year=2025'
    expect([(await app.post(path, body)).status, (await app.post(path, body)).status]).toEqual([303, 303])
    expect(await page()).toContain('the paper says $250.00 more')
    const csv = await (await app.get('/year-pack/people.csv?year=2025&table=papers')).text()
    expect(csv).toContain('W-2,Household,Off-farm pay,,18000.00,18250.00,250.00')
  })
})

test('an account says whose pay it is: wages go to that person, the plan’s people only', async () => {
  app.savePlan(
    planSchema.parse({
      startMonth: '2025-01',
      household: {
        people: [
          { id: 'ida', name: 'Ida', born: '1982-04-01' },
          { id: 'leo', name: 'Leo', born: '1984-09-01' },
        ],
        living: [{ id: 'living', name: 'Living', perMonth: 1500 }],
      },
    }),
  )
  post('School', '2025-03-31', { 'Household checking': 18_000, 'Off-farm pay': -18_000 }, 'household')
  const path = `/settings/accounts/${idOf('Off-farm pay', 'household')}`
  const form = {
    formId: crypto.randomUUID(),
    side: 'household',
    kind: 'income',
    name: 'Off-farm pay',
    number: '4000',
    purpose: 'pay',
  }
  expect((await app.post(path, { ...form, personId: 'nobody' })).status).toBe(422)
  expect((await app.post(path, { ...form, formId: crypto.randomUUID(), personId: 'leo' })).status).toBe(303)
  expect(figures().papers[0]).toMatchObject({ paper: 'W-2', person: 'Leo' })
  post('Seed money', '2025-01-31', { 'Farm checking': 10, 'CSA shares': -10 })
  const worked = workedYear(app.books, (currentPlan(app.books) as { plan: Plan }).plan, 2025)
  if (worked.status === 'cannot') throw new Error(worked.says)
  expect(worked.tax.household.wages).toEqual([0, 18_000])
})
