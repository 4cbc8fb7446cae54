// A worker's pay on one form, worked by hand: what the law's rates propose, one entry, and the year's Forms W-2, 943 and 940.
//
// Tests of 150 dollars to one worker and 2,500 to all: 26 USC 3121(a)(8)(B), IRS Pub. 51 (in Pub. 15 since 2023), memory. 6.2 and 1.45
// percent of each: 26 USC 3101, 3111. Unemployment tax of farms: 26 USC 3306(a)(2), 3301, 3302, memory.
import { afterEach, beforeEach, expect, test } from 'vitest'
import { addDays, type Day, day } from '#calendar/day.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { balancesOn } from '#db/ledger/balances.ts'
import { listPayees, sayPayees } from '#db/tax/payees.ts'
import type { PaidOn } from '#ledger/tax/payee-totals.ts'
import { form940 } from '#ledger/tax/payroll-forms.ts'
import { workersPaid } from '#ledger/tax/wages.ts'
import { cents } from '#money/cents.ts'
import { currentPlan } from '#today/current-plan.ts'
import { peopleFigures } from '#today/year-pack/people-figures.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
beforeEach(() => {
  app = testApp({ today: '2025-12-20' })
  app.openSides()
})
afterEach(() => app.close())

const idOf = (name: string) =>
  listAccounts(app.books).find((one) => one.sideId === 'farm' && one.name === name)!.id
const payOf = (worker: string, on: string, gross: string, more: Record<string, string> = {}) => ({
  formId: crypto.randomUUID(),
  worker,
  day: on,
  wages: String(idOf('Hired labor')),
  money: String(idOf('Farm checking')),
  gross,
  federal: '',
  state: '',
  kept: '',
  employer: '',
  ...more,
})
const send = (form: Record<string, string>) => app.post('/year-pack/pay', form)
const figures = () => peopleFigures(app.books, 2025, currentPlan(app.books))
const balance = (name: string) => balancesOn(app.books).get(idOf(name)) ?? 0

test('below the tests nothing is kept back; the pay that meets one is asked for the year’s earlier wages too', async () => {
  expect((await send(payOf('Ann', '2025-03-05', '100'))).status).toBe(303)
  expect([balance('Hired labor'), balance('Farm checking')]).toEqual([100_00, -100_00])
  const june = payOf('Ann', '2025-06-10', '1,000', { federal: '20' })
  // 1,100 at 7.65 percent: 84.15 of each.
  expect((await send(june)).status).toBe(303)
  expect((await send(june)).status).toBe(303)
  expect(balance('Farm checking')).toBe(-100_00 - (1000_00 - 20_00 - 84_15))
  expect(balance('Social Security and Medicare owed')).toBe(-168_30)
  expect(balance('Income tax kept back from pay')).toBe(-20_00)
  expect(balance('Employer’s payroll taxes')).toBe(84_15)
  expect((await send(payOf('Ann', '2025-08-08', '600'))).status).toBe(303)
  const { workers, farmPayroll, unemployment } = figures()
  expect(workers).toMatchObject([
    { name: 'Ann', grossCents: 1700_00, federalCents: 20_00, payrollCents: 130_05, employerCents: 130_05 },
  ])
  expect(workers[0]!.due).toMatchObject({ socialSecurityCents: 105_40, medicareCents: 24_65 })
  expect(farmPayroll).toEqual({
    workers: 1,
    wagesCents: 1700_00,
    socialSecurityWagesCents: 1700_00,
    medicareWagesCents: 1700_00,
    socialSecurityCents: 210_80,
    medicareCents: 49_30,
    withheldCents: 20_00,
    totalCents: 280_10,
    // 15.30 for March; 168.30 less that and 20 of income tax for June; the rest for August.
    monthsCents: [0, 0, 15_30, 0, 0, 173_00, 0, 91_80, 0, 0, 0, 0],
    // 26 CFR 31.6302-1(f)(4), memory.
    withFormBelowCents: 2500_00,
  })
  expect(unemployment).toMatchObject({ isDue: false, quartersCents: [100_00, 1000_00, 600_00, 0] })
  const page = await (await app.get('/year-pack/people?year=2025')).text()
  expect(page).toContain('As the rates give.')
  expect(page).toContain('Form 940 is not due')
  expect(page).toContain('173.00')
})

test('filled in by the rates first, the form shows what would be booked, and books nothing', async () => {
  const reply = await send(payOf('Ann', '2025-06-10', '2,000', { fill: 'yes', federal: '55' }))
  const page = await reply.text()
  expect(reply.status).toBe(200)
  expect(page).toContain('value="153.00"')
  expect(page).toContain('To be paid out: $1,792.00')
  expect(figures().workers).toEqual([])
})

test('what cannot be is refused at its field with what was typed kept', async () => {
  const reply = await send(payOf('Ann', '2025-06-10', '100', { federal: '90', kept: '20' }))
  expect(reply.status).toBe(422)
  const page = await reply.text()
  expect(page).toContain('More is kept back than was earned')
  expect(page).toContain('value="Ann"')
  const unpaid = await send(payOf('', '2025-06-10', '0'))
  expect(await unpaid.text()).toContain('Enter who was paid')
  const state = await send(payOf('Ann', '2025-06-10', '500', { state: '10' }))
  expect(await state.text()).toContain('No account holds state tax kept back')
  // A child under 18: nothing is due, and 0 is taken as said.
  expect((await send(payOf('Ida', '2025-06-10', '500', { kept: '0', employer: '0' }))).status).toBe(303)
  expect(figures().workers[0]).toMatchObject({ payrollCents: 0, employerCents: 0 })
})

test('pay under another spelling belongs to the name it was said to be, and that spelling stays', async () => {
  const said = (name: string, sameAs: string | null) => ({
    name,
    kind: 'contractor' as const,
    sameAs,
    formOnFile: true,
  })
  done(sayPayees(app.books, act(), [said('Ann Field', null), said('A. Field', 'Ann Field')]))
  await send(payOf('A. Field', '2025-06-10', '1,000'))
  await send(payOf('Ann Field', '2025-07-10', '1,000'))
  expect(figures().workers).toMatchObject([{ name: 'Ann Field', grossCents: 2000_00, payrollCents: 153_00 }])
  expect(listPayees(app.books)).toMatchObject([
    { name: 'A. Field', sameAs: 'Ann Field', formOnFile: true },
    { name: 'Ann Field', kind: 'worker', sameAs: null, formOnFile: true },
  ])
})

test('20,000 in a quarter brings Form 940: 0.6 percent of the first 7,000 of each', async () => {
  await send(payOf('Ann', '2025-06-10', '1,700'))
  await send(payOf('Bo', '2025-08-10', '21,000'))
  expect(figures().unemployment).toMatchObject({
    isDue: true,
    paymentsCents: 22_700_00,
    overCents: 14_000_00,
    taxableCents: 8700_00,
    taxCents: 52_20,
  })
  // The year after pays it for the quarter of the year before.
  const next = peopleFigures(app.books, 2026, currentPlan(app.books))
  expect(next.unemployment).toMatchObject({
    isDue: true,
    paymentsCents: 0,
    beforeCents: [0, 1700_00, 21_000_00, 0],
  })
})

test('ten workers in twenty weeks bring it too; ten in fewer weeks of pay cannot be told', () => {
  // The last is paid under another spelling, said as a contractor's before.
  const names = Array.from({ length: 10 }, (_, i) => `Picker ${i + 1}`)
  const said = names.map((name) => ({ name, kind: 'worker' as const, sameAs: null, formOnFile: false }))
  const last = names.length - 1
  said[last] = { name: 'P. Ten', kind: 'worker', sameAs: null, formOnFile: false }
  const alias = { name: names[last]!, kind: 'contractor' as const, sameAs: 'P. Ten', formOnFile: false }
  const account = { sideId: 'farm', kind: 'expense' as const, scheduleLine: '22', taxKind: null }
  const weeks = (count: number): PaidOn[] =>
    Array.from({ length: count }, (_, w) => addDays(day('2025-04-04') as Day, 7 * w)).flatMap((on) =>
      names.map((payee) => ({ payee, account, isByCard: false, day: on, amountCents: cents(4000) })),
    )
  const of = (count: number) => {
    const paid = weeks(count)
    return form940(workersPaid(paid, [...said, alias], 2025), [], { paid, said: [...said, alias] }, 2025)
  }
  expect(of(20)).toMatchObject({ isDue: true, weeks: 20, workers: 10 })
  expect(of(19)).toMatchObject({ isDue: null, weeks: 19 })
})

test('whose pay tax was kept back from is a worker: called paid by the job, it is refused at its field', async () => {
  expect((await send(payOf('Ann', '2025-06-10', '3,000'))).status).toBe(303)
  const people = '/year-pack/people?year=2025'
  const text = await (await app.get(people)).text()
  const said = (kind: string) => ({
    formId: crypto.randomUUID(),
    basedOn: /name="basedOn" value="([^"]*)"/.exec(text)![1]!,
    'payees.0.name': 'Ann',
    'payees.0.kind': kind,
    'payees.0.sameAs': '',
  })
  const refused = await app.post(people, said('contractor'))
  expect(refused.status).toBe(422)
  expect(await refused.text()).toContain('Tax was kept back from the pay of Ann')
  expect(listPayees(app.books)).toMatchObject([{ name: 'Ann', kind: 'worker' }])
  expect((await app.post(people, said('worker'))).status).toBe(303)
  // One worker: in no week do ten have pay (26 USC 3306(a)(2)(B)).
  expect(text).toMatch(/Weeks with pay of 10 or more workers: none/)
})

test('the first pay of a running year is reached from pack and books, whatever years the books have', async () => {
  const page = async (path: string) => (await app.get(path)).text()
  const leads = async () => {
    for (const path of ['/year-pack', '/books/entry?side=farm&kind=out'])
      expect(await page(path), path).toContain('href="/year-pack/pay"')
    expect(await page('/books/entry?side=household&kind=out')).not.toContain('href="/year-pack/pay"')
  }
  await leads()
  expect((await send(payOf('Ann', '2025-12-05', '100'))).status).toBe(303)
  app.setToday('2026-01-20')
  // The books have nothing of 2026: the pack is that of 2025.
  expect(await page('/year-pack')).toContain('Year pack 2025')
  await leads()
  expect((await send(payOf('Bo', '2026-01-19', '90'))).status).toBe(303)
  expect(await page('/year-pack/people?year=2026')).toContain('Bo')
})
