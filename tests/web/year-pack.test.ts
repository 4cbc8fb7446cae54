// The Year pack: what it shows from booked entries, its CSV and JSON, and the forms for what the books do not know.
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { addAccount, addSide, listAccounts } from '#db/ledger/account-store.ts'
import { postCrossing } from '#db/ledger/crossing-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { cents } from '#money/cents.ts'
import { planSchema } from '#plan/plan.ts'
import { noCarryforwards } from '#rules/carryforwards.ts'
import { booksYear } from '#today/tax/books-year.ts'
import type { LastYear } from '#today/tax/paid-ahead.ts'
import { nothingPaid } from '#today/tax/paid-for.ts'
import { yearTax } from '#today/tax/tax-worksheet.ts'
import { act, done } from '../db/fresh-books.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp

const idOf = (side: string, name: string): number => {
  const found = listAccounts(app.books).find((account) => account.sideId === side && account.name === name)
  if (!found) throw new Error(`No account ${side}/${name}`)
  return found.id
}

const post = (side: string, on: string, debit: string, credit: string, dollars: number) =>
  done(
    postEntry(app.books, act(), {
      sideId: side,
      day: day(on),
      payee: '',
      memo: '',
      source: 'form',
      lines: [
        { accountId: idOf(side, debit), amountCents: cents(dollars * 100) },
        { accountId: idOf(side, credit), amountCents: cents(-dollars * 100) },
      ],
    }),
  )

beforeEach(() => {
  app = testApp({ today: '2026-02-10' })
  done(addSide(app.books, act(), { kind: 'farm', name: 'Lantern Hollow' }))
  done(addSide(app.books, act(), { kind: 'household', name: 'The house' }))
  post('farm', '2024-12-31', 'Farm checking', 'Opening balances', 5000)
  post('household', '2024-12-31', 'Savings', 'Opening balances', 60_000)
  post('farm', '2025-06-10', 'Farm checking', 'Vegetables and fruit sold', 21_000)
  post('farm', '2025-04-02', 'Seeds and plants', 'Farm checking', 1800)
  post('farm', '2025-03-02', 'Machinery and equipment', 'Farm checking', 6000)
  post('farm', '2025-02-02', 'Farm checking', 'Term loan', 4000)
  post('household', '2025-05-01', 'Groceries', 'Savings', 9000)
  done(
    postCrossing(app.books, act(), {
      kind: 'draw',
      day: day('2025-09-15'),
      amountCents: cents(300_000),
      fromAccountId: idOf('farm', 'Farm checking'),
      toAccountId: idOf('household', 'Household checking'),
      memo: '',
    }),
  )
})

afterEach(() => app.close())

const page = async (path: string) => {
  const response = await app.get(path)
  return { status: response.status, text: await response.text() }
}

const json = async (path: string) => (await (await app.get(path)).json()) as Record<string, never>

const formId = () => crypto.randomUUID()

describe('the pack', () => {
  test('shows the last full year with every statement of each side and of all together', async () => {
    const { status, text } = await page('/year-pack/print')
    expect(status).toBe(200)
    expect(text).toContain('Year pack 2025')
    for (const title of [
      'Schedule F summary',
      'Farm finance measures',
      'Income statement',
      'Balance sheet',
      'Statement of owner’s equity',
      'Cash flow',
      'Crossings by month',
      'Tax worksheet',
    ])
      expect(text, title).toContain(title)
    expect(text).toContain('Income statement, All sides')
    expect(text).toMatch(/Check with a\s+licensed tax preparer/)
    expect(text).not.toMatch(/NaN|undefined|\[object/)
  })

  test('contents lead to each sheet at its own address, as page, JSON and CSV', async () => {
    const { text } = await page('/year-pack')
    const links = [...text.matchAll(/href="(\/year-pack\/sheets\/[^"]+)"/g)].map(([, link]) =>
      link!.replaceAll('&amp;', '&'),
    )
    expect(links.length).toBeGreaterThan(12)
    for (const link of links) {
      const sheet = await page(link)
      expect([link, sheet.status]).toEqual([link, 200])
      expect(sheet.text).toMatch(/cash basis, January 1 to December 31, 2025/)
    }
    expect(text).toContain('19,200.00')
    const balance = await json('/year-pack/sheets/farm-balance.json?year=2025')
    expect(balance).toMatchObject({ sheet: 'farm-balance', header: expect.arrayContaining(['end books']) })
    expect((await page('/year-pack/sheets/nonsense?year=2025')).status).toBe(404)
  })

  test('books that begin within the year say so on each sheet', async () => {
    const late = testApp({ today: '2026-02-10' })
    done(addSide(late.books, act(), { kind: 'household', name: 'The house' }))
    const of = (name: string) => listAccounts(late.books).find((account) => account.name === name)!.id
    done(
      postEntry(late.books, act(), {
        sideId: 'household',
        day: day('2025-07-01'),
        payee: '',
        memo: '',
        source: 'opening',
        lines: [
          { accountId: of('Savings'), amountCents: cents(500) },
          { accountId: of('Opening balances'), amountCents: cents(-500) },
        ],
      }),
    )
    const text = await (await late.get('/year-pack/print?year=2025')).text()
    expect(text.match(/Jul 1, 2025 to December 31, 2025 \(part of a year\)/g)!.length).toBeGreaterThan(5)
    late.close()
  })

  test('the same figures as JSON', async () => {
    const figures = await json('/year-pack.json?year=2025')
    expect(figures).toMatchObject({ year: 2025, basis: 'cash', through: null })
    const form = figures.scheduleF as unknown as { netProfitCents: number }
    expect(form.netProfitCents).toBe(1_920_000)
  })

  test('a running year says up to which day it goes', async () => {
    post('farm', '2026-01-20', 'Seeds and plants', 'Farm checking', 100)
    expect((await page('/year-pack?year=2026')).text).toContain('goes up to Feb 10, 2026')
  })

  test('each table as CSV', async () => {
    for (const table of [
      'schedule-f',
      'measures',
      'inventory',
      'farm-income',
      'farm-balance',
      'farm-equity',
      'household-cash',
      'together-balance',
      'crossings',
    ]) {
      const response = await app.get(`/year-pack.csv?year=2025&table=${table}`)
      expect(response.status, table).toBe(200)
      expect((await response.text()).split('\r\n').length, table).toBeGreaterThan(1)
    }
    const income = await (await app.get('/year-pack.csv?year=2025&table=farm-income')).text()
    expect(income).toContain('Operating costs,Seeds and plants,1800.00')
    expect((await app.get('/year-pack.csv?table=nonsense')).status).toBe(404)
  })

  test('without people in the plan the tax worksheet says what to add', async () => {
    expect((await page('/year-pack/print')).text).toContain('Add the people of the household to the plan')
  })

  test('empty books say what to do', async () => {
    const empty = testApp()
    const text = await (await empty.get('/year-pack')).text()
    expect(text).toContain('There is nothing to print yet')
    empty.close()
  })
})

describe('what the books do not know', () => {
  test('is asked for before printing, and gone once entered', async () => {
    expect((await page('/year-pack')).text).toContain('“Term loan”: say what falls due within twelve months')
    const inputs = (await json('/year-pack/inputs.json?year=2025')) as unknown as { revision: number }
    const saved = await app.post('/year-pack/inputs/said?year=2025', {
      basedOn: String(inputs.revision),
      deferredTaxRate: '25',
      unpaidLabor: '12,000',
      replacement: '',
      [`due.a${idOf('farm', 'Term loan')}`]: '900',
    })
    expect(saved.status).toBe(303)
    const { text } = await page('/year-pack')
    expect(text).not.toContain('say what falls due')
    const figures = (await json('/year-pack.json')) as unknown as {
      sides: { kind: string; end: { currentLiabilities: { costCents: number } } }[]
    }
    expect(figures.sides.find((side) => side.kind === 'farm')!.end.currentLiabilities.costCents).toBe(90_000)
  })

  test('a save over someone else’s newer one shows both and can be saved after theirs', async () => {
    const form = { deferredTaxRate: '20', unpaidLabor: '', replacement: '' }
    expect((await app.post('/year-pack/inputs/said?year=2025', { ...form, basedOn: '0' })).status).toBe(303)
    const refused = await app.post('/year-pack/inputs/said?year=2025', {
      ...form,
      deferredTaxRate: '33',
      basedOn: '0',
    })
    expect(refused.status).toBe(409)
    const text = await refused.text()
    expect(text).toContain('Two versions of the entries for the year pack 2025')
    expect(text).toMatch(/deferred tax rate<\/th>.*20.*33/s)
    expect(text).toContain('<input type="hidden" name="deferredTaxRate" value="33"/>')
  })

  test('a wrong rate is told at its field', async () => {
    const response = await app.post('/year-pack/inputs/said?year=2025', {
      basedOn: '0',
      deferredTaxRate: 'much',
    })
    expect(response.status).toBe(422)
    expect(await response.text()).toContain('Enter a percentage from 0 to 90, like 25')
  })

  test('market values fill the second column and bring deferred tax', async () => {
    await app.post('/year-pack/inputs/said?year=2025', { basedOn: '0', deferredTaxRate: '25' })
    const saved = await app.post('/year-pack/inputs/market?year=2025', {
      formId: formId(),
      [`market.a${idOf('farm', 'Machinery and equipment')}`]: '8000',
    })
    expect(saved.status).toBe(303)
    const figures = (await json('/year-pack.json')) as unknown as {
      sides: { kind: string; end: { deferredTax: { gainCents: number; taxCents: number } } }[]
    }
    expect(figures.sides.find((side) => side.kind === 'farm')!.end.deferredTax).toMatchObject({
      gainCents: 200_000,
      taxCents: 50_000,
    })
  })

  test('year-end items count on the accrual basis only, and can be taken off', async () => {
    const item = {
      formId: formId(),
      side: 'farm',
      kind: 'receivable',
      name: 'Restaurant invoice',
      amount: '450',
    }
    expect((await app.post('/year-pack/inputs/items?year=2025', item)).status).toBe(303)
    const net = async (basis: string) =>
      (
        (await json(`/year-pack.json?year=2025&basis=${basis}`)) as unknown as {
          sides: { income: { netIncomeCents: number } }[]
        }
      ).sides[0]!.income.netIncomeCents
    expect(await net('cash')).toBe(1_920_000)
    expect(await net('accrual')).toBe(1_965_000)
    const { accruals } = (await json('/year-pack/inputs.json?year=2025')) as unknown as {
      accruals: { id: string }[]
    }
    expect(
      (
        await app.post(`/year-pack/inputs/items/${accruals[0]!.id}/remove?year=2025`, {
          formId: formId(),
          side: 'farm',
        })
      ).status,
    ).toBe(303)
    expect(await net('accrual')).toBe(1_920_000)
  })

  test('an item without a name or amount comes back with what was typed', async () => {
    const response = await app.post('/year-pack/inputs/items?year=2025', {
      formId: formId(),
      side: 'farm',
      kind: 'payable',
      name: '',
      amount: 'x',
    })
    expect(response.status).toBe(422)
    expect(await response.text()).toContain('Say what it is, like unsold garlic')
  })
})

describe('stock and equipment', () => {
  const tractor = {
    name: 'Walking tractor',
    kind: 'equipment',
    quantity: '1',
    unit: '',
    cost: '6000',
    acquiredDay: '2025-03-02',
    inServiceDay: '',
    account: '',
    assetClass: 'machinery-used',
    section179: '',
    marketValue: '',
    disposedDay: '',
    disposedFor: '',
  }

  test('a thing added is written off in the inventory and on line 14', async () => {
    expect((await app.post('/year-pack/holdings/new', { ...tractor, formId: formId() })).status).toBe(303)
    const { text } = await page('/year-pack/print?year=2025')
    expect(text).toContain('Walking tractor')
    expect(text).toContain('857.40')
    expect(text).toContain('the books hold $0.00')
    const figures = (await json('/year-pack.json?year=2025')) as unknown as {
      scheduleF: { netProfitCents: number }
    }
    expect(figures.scheduleF.netProfitCents).toBe(1_920_000 - 85_740)
  })

  test('what has no market value counts at what is left of its cost, on the sheet, in CSV and JSON alike', async () => {
    const market = async () => {
      const { inventory } = (await json('/year-pack.json?year=2025')) as unknown as {
        inventory: { marketCents: number; rows: { market: { cents: number; isAtCost: boolean } }[] }
      }
      const csv = (await page('/year-pack.csv?year=2025&table=inventory')).text.trim().split('\n')
      return { inventory, csv: csv[1]!.split(','), sheet: (await page('/year-pack/print?year=2025')).text }
    }
    const unvalued = { ...tractor, marketValue: '', valuedDay: '' }
    await app.post('/year-pack/holdings/new', { ...unvalued, formId: formId() })
    const { inventory, csv, sheet } = await market()
    const left = inventory.rows[0]!.market
    expect(left.isAtCost).toBe(true)
    // Cost less 857.40 of the first year.
    expect(left.cents).toBe(Number(tractor.cost.replace(',', '')) * 100 - 85_740)
    expect(inventory.marketCents).toBe(left.cents)
    expect(csv).toContain((left.cents / 100).toFixed(2))
    expect(csv.join()).toContain('at cost, no market value given')
    expect(sheet).toContain('at cost, no market value given')
    const { holdings } = (await json('/year-pack/inputs.json')) as unknown as { holdings: { id: string }[] }
    const valued = { ...tractor, marketValue: '5,250', valuedDay: '2025-12-31', formId: formId() }
    expect((await app.post(`/year-pack/holdings/${holdings[0]!.id}`, valued)).status).toBe(303)
    const after = await market()
    expect(after.inventory.marketCents).toBe(525_000)
    expect(after.csv.join()).toContain('5250.00,as valued')
    expect(after.sheet).not.toContain('at cost, no market value given')
  })

  test('bonus of a year before it is kept here is refused at its field; a machine of 1974 does not break the pack', async () => {
    const early = { ...tractor, acquiredDay: '2012-03-02', bonus: 'yes' }
    const refused = await app.post('/year-pack/holdings/new', { ...early, formId: formId() })
    expect(refused.status).toBe(422)
    expect(await refused.text()).toMatch(/id="f-bonus-error"|href="#f-bonus"/)
    const old = { ...tractor, acquiredDay: '1974-03-02', 'sureDays[]': '1974-03-02', formId: formId() }
    expect((await app.post('/year-pack/holdings/new', old)).status).toBe(303)
    expect((await page('/year-pack/print?year=2025')).text).toContain('Walking tractor')
  })

  test('sent twice it is there once; changed it keeps its place', async () => {
    const form = { ...tractor, formId: formId() }
    await app.post('/year-pack/holdings/new', form)
    await app.post('/year-pack/holdings/new', form)
    const { holdings } = (await json('/year-pack/inputs.json')) as unknown as { holdings: { id: string }[] }
    expect(holdings).toHaveLength(1)
    const changed = await app.post(`/year-pack/holdings/${holdings[0]!.id}`, {
      ...tractor,
      formId: formId(),
      disposedDay: '2026-01-05',
      disposedFor: '4000',
    })
    expect(changed.status).toBe(303)
    expect((await page(`/year-pack/holdings/${holdings[0]!.id}`)).text).toContain('value="4000.00"')
  })

  test('faults stand at their field', async () => {
    const response = await app.post('/year-pack/holdings/new', {
      ...tractor,
      formId: formId(),
      assetClass: 'farm-building',
      section179: '100',
      disposedDay: '2024-01-01',
    })
    expect(response.status).toBe(422)
    const text = await response.text()
    expect(text).toContain('Section 179 does not cover buildings')
    expect(text).toContain('Enter a day after it came into use')
    expect((await app.get('/year-pack/holdings/nothing')).status).toBe(404)
  })
})

describe('tax worksheet from the books', () => {
  const plan = planSchema.parse({
    startMonth: '2025-01',
    household: {
      people: [
        { id: 'a', name: 'Mara', born: '1982-04-01', farmWorkShare: 0.75 },
        { id: 'b', name: 'Teo', born: '1980-09-01', farmWorkShare: 0.25 },
      ],
      dependents: [{ id: 'c', name: 'Junie', born: '2016-02-02' }],
    },
  })

  const worked = (of = plan, lastYear: LastYear | null = null) => {
    const { sides, farm } = booksYear(app.books, 2025)
    const result = yearTax(sides, farm!.income, { federal: nothingPaid, state: nothingPaid }, lastYear, of)
    if (result.status === 'cannot') throw new Error(result.says)
    return result.tax
  }

  test('farm profit is split as the plan says; the couple files jointly with a child', () => {
    const { household } = worked()
    expect(household.farmProfit).toEqual([14_400, 4800])
    expect([household.status, household.people, household.childrenUnder17]).toEqual([1, 2, 1])
  })

  test('self-employment tax is on 92.35 percent of the profit, and a farmer pays once, by January 15', () => {
    const { return: filed, estimated } = worked()
    // 19,200 × 0.9235 × 15.3 percent (Schedule SE 2025, lines 4a, 10, 11).
    expect(filed.figures.selfEmploymentTax).toBeCloseTo(19_200 * 0.9235 * 0.153, 1)
    expect(estimated.farmer).toBe(true)
    expect(estimated.fileInsteadBy).toBe('2026-03-02')
  })

  test('what must be paid ahead counts refundable credits, as the worksheet of Form 1040-ES does on line 11b', () => {
    const { return: filed, estimated } = worked()
    const { totalTax, totalPayments, earnedIncomeCredit } = filed.figures
    expect(earnedIncomeCredit).toBeGreaterThan(totalTax)
    expect(totalPayments).toBeGreaterThan(totalTax)
    expect(estimated).toMatchObject({ requiredAnnualPayment: 0, installments: [] })
  })

  test('a loss of the year before lowers this year’s income, as the books or the plan have it (26 USC 172)', () => {
    const carried = { ...noCarryforwards(), netOperatingLoss: 3000, farmLoss: 3000, qualifiedBusiness: 3000 }
    const lastYear = {
      gross: { farm: 20_000, total: 20_000 },
      filed: { tax: 0, stateTax: 0, adjustedGrossIncome: -3000, carried, lossRefund: 0 },
    }
    // 19,200 less half of its tax is far under the standard deduction of 31,500: no taxable income that could take the loss.
    expect(worked(plan, lastYear).return.figures.carried).toMatchObject({
      netOperatingLoss: 3000,
      qualifiedBusiness: 0,
    })
    const said = planSchema.parse({ ...plan, tax: { ...plan.tax, carried: { netOperatingLoss: 500 } } })
    expect(worked(said, lastYear).return.figures.carried.netOperatingLoss).toBe(500)
  })

  test('care of a child under 13 that the plan marks is said to be left out', () => {
    const care = { id: 'care', name: 'Care', perMonth: 300, careOfChildren: true }
    const withCare = planSchema.parse({ ...plan, household: { ...plan.household, living: [care] } })
    expect(worked().assumed.join(' ')).not.toContain('Care of children')
    expect(worked(withCare).assumed.join(' ')).toContain('Care of children')
  })

  test('breeding stock sold counts as a gain without self-employment tax', () => {
    const before = worked()
    post('farm', '2025-10-01', 'Farm checking', 'Breeding stock and equipment sold', 900)
    const after = worked()
    expect(after.household.section1231).toBe(900)
    expect(after.return.figures.selfEmploymentTax).toBe(before.return.figures.selfEmploymentTax)
    expect(after.assumed.join(' ')).toContain('held long enough')
  })

  test('a pension and dividends stand in what the set-aside is made of', async () => {
    app.setToday('2025-12-31')
    const living = [{ id: 'living', name: 'Living', perMonth: 2500 }]
    app.savePlan({ ...plan, household: { ...plan.household, living } })
    for (const [name, scheduleLine] of [
      ['Old mill pension', '5b'],
      ['Fund dividends', '3b'],
    ])
      done(
        addAccount(app.books, act(), {
          sideId: 'household',
          name: name!,
          kind: 'income',
          scheduleLine: scheduleLine!,
        }),
      )
    post('household', '2025-03-01', 'Savings', 'Old mill pension', 6300)
    post('household', '2025-04-01', 'Savings', 'Fund dividends', 410)
    const { text } = await page('/cover/tax')
    expect(text).toMatch(/Pensions, line 5b[\s\S]{0,120}\$6,300/)
    expect(text).toMatch(/Dividends on lines 3a and 3b[\s\S]{0,120}\$410/)
    expect(text).not.toContain('Social Security benefits, line 6a')
  })

  test('and the set-aside of Now read the same books: the same tax, with premiums too', async () => {
    app.setToday('2025-12-31')
    const living = [{ id: 'living', name: 'Living', perMonth: 2500 }]
    app.savePlan({ ...plan, household: { ...plan.household, living } })
    post('household', '2025-03-01', 'Savings', 'Off-farm pay', 14_000)
    post('household', '2025-07-01', 'Savings', 'Interest and dividends', 700)
    post('household', '2025-07-02', 'Savings', 'Change in value of investments', 4000)
    post('household', '2025-06-15', 'Federal taxes', 'Savings', 800)
    post('farm', '2025-10-01', 'Farm checking', 'Breeding stock and equipment sold', 900)
    const read = async () => {
      const { tax } = (await json('/year-pack.json?year=2025')) as unknown as {
        tax: { worksheet: { figures: Record<string, number>; estimated: { farmer: boolean } } }
      }
      const { tax: soFar } = (await json('/cover.json')) as unknown as {
        tax: Record<string, number> & { isFarmer: boolean }
      }
      const { tax: now } = (await json('/now.json')) as unknown as { tax: object }
      expect(now).toEqual(soFar)
      expect(soFar.isFarmer).toBe(tax.worksheet.estimated.farmer)
      return { filed: tax.worksheet.figures, soFar }
    }
    const { filed, soFar } = await read()
    expect(soFar).toMatchObject({ wages: 14_000, interest: 700, stockSold: 900, paid: 800 })
    expect(soFar.total).toBeCloseTo(filed.totalTax!, 0)
    expect(soFar.selfEmploymentTax).toBeCloseTo(filed.selfEmploymentTax!, 0)
    expect(soFar.mayComeBack).toBeCloseTo(filed.earnedIncomeCredit! + filed.additionalChildTaxCredit!, 0)
    expect(soFar.setAside! - soFar.mayComeBack!).toBeCloseTo(filed.balanceDue!, 0)
    post('household', '2025-04-01', 'Health premiums', 'Savings', 3000)
    const withCover = await read()
    expect(withCover.soFar.mayComeBack).toBeCloseTo(
      withCover.filed.earnedIncomeCredit! + withCover.filed.additionalChildTaxCredit!,
      0,
    )
    expect(withCover.soFar.setAside).toBeCloseTo(soFar.setAside!, 0)
    expect(withCover.filed.selfEmploymentTax).toBe(filed.selfEmploymentTax)
    expect(withCover.filed.totalTax).toBeLessThanOrEqual(filed.totalTax!)
  })
})
