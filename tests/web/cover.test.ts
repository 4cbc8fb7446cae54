// The Cover page as a browser on this computer sees it: figures, tables, levers, and the form for premiums.
import { randomUUID } from 'node:crypto'
import { afterEach, describe, expect, test } from 'vitest'
import { addSide } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { latestRevision } from '#db/plan-store.ts'
import { cents } from '#money/cents.ts'
import type { PlanInput } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { steadyIndexing } from '#rules/dated.ts'
import { lawFor } from '#rules/law.ts'
import { applicableHundredths } from '#rules/marketplace/premium-credit.ts'
import type { CoverFigures } from '#today/cover/figures.ts'
import { act, done, on, withAccounts } from '../db/fresh-books.ts'
import { filledForm } from './browser-form.ts'
import { type TestApp, testApp } from './test-app.ts'

let app: TestApp
afterEach(() => app.close())

/** An invented couple with a child, pay and no farm yet, whose income is plain to follow. */
const plan: PlanInput = {
  startMonth: '2026-01',
  household: {
    people: [
      { id: 'ada', name: 'Ada', born: '1981-05-02' },
      { id: 'ben', name: 'Ben', born: '1962-08-20' },
    ],
    dependents: [{ id: 'cy', name: 'Cy', born: '2015-03-03' }],
    pay: [{ id: 'shop', name: 'Shop', person: 'ada', perMonth: 4000 }],
    living: [{ id: 'living', name: 'Living', perMonth: 3000 }],
  },
  health: {
    marketplace: {
      members: [{ person: 'ada' }, { person: 'ben' }, { person: 'cy' }],
      planAt21: 400,
      benchmarkAt21: 400,
    },
  },
  savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 50_000 }] },
}

const withPlan = (document: PlanInput = plan): TestApp => {
  app = testApp({ today: '2026-11-25' })
  const read = readPlan(document)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  app.savePlan(read.plan, { planId: 'plan' })
  return app
}

type Read = Extract<CoverFigures, { status: 'read' }>
const figuresOf = async (path: string): Promise<Read> => (await (await app.get(path)).json()) as Read

describe('without a plan', () => {
  test('says what is needed and leads there', async () => {
    app = testApp()
    const page = await app.get('/cover')
    expect(page.status).toBe(200)
    expect(await page.text()).toContain('href="/start/who"')
    expect(await (await app.get('/cover.json')).json()).toMatchObject({ status: 'none' })
  })
})

describe('with a plan', () => {
  test('credit and what is paid make the premium, at the percentage of the law', async () => {
    withPlan()
    const { inSight: sight, year } = await figuresOf('/cover.json')
    expect(year).toBe(2026)
    const { now } = sight!.room
    // Factors at 44, 63 and 10: 1.397 + 2.952 + 0.765.
    expect(sight!.premiumMonthly).toBeCloseTo(400 * 5.114, 6)
    expect(now.credit + now.netPremium).toBeCloseTo(now.premium, 6)
    const law = lawFor(2026, steadyIndexing(0))
    expect(sight!.povertyLine).toBe(26_650)
    expect(sight!.applicablePercent).toBe(applicableHundredths(law, now.povertyPercent) / 100)
    expect(now.credit).toBeCloseTo(now.premium - (now.householdIncome * sight!.applicablePercent) / 100, 1)
  })

  test('shows the same figures on the page, with charts as drawings and tables behind them', async () => {
    withPlan()
    const rooms = ['', '/credit', '/years', '/place'].map(async (room) =>
      (await app.get(`/cover${room}`)).text(),
    )
    const page = (await Promise.all(rooms)).join('')
    const figures = await figuresOf('/cover.json')
    const credit = Math.round(figures.inSight!.room.now.credit).toLocaleString('en-US')
    expect(page).toContain(`$${credit}`)
    for (const id of ['credit-by-income', 'kept-of-income', 'premium-by-age', 'premiums-by-year']) {
      expect(page).toContain(`id="${id}"`)
    }
    expect(page).toContain('this year’s income')
    expect(page).toContain('not advice')
    expect(page).not.toMatch(/NaN|undefined|Infinity/)
  })

  test('names who is covered by what: marketplace, and Medicare from the month of 65', async () => {
    withPlan()
    const { rows, medicare } = await figuresOf('/cover.json')
    const of = (year: number, name: string) =>
      rows.find((row) => row.year === year)!.people.find((person) => person.name === name)!.cover
    expect(of(2026, 'Ben')).toEqual([{ kind: 'marketplace', from: 1, months: 12 }])
    // Ben is 65 in August 2027.
    expect(of(2027, 'Ben')).toEqual([
      { kind: 'marketplace', from: 1, months: 7 },
      { kind: 'Medicare', from: 8, months: 5 },
    ])
    expect(of(2028, 'Ben')).toEqual([{ kind: 'Medicare', from: 1, months: 12 }])
    expect(medicare[0]).toMatchObject({ name: 'Ben', month: '2027-08', signUpFrom: '2027-05' })
    expect(rows.find((row) => row.year === 2028)!.premiumMonthly).toBeLessThan(
      rows.find((row) => row.year === 2026)!.premiumMonthly,
    )
  })

  test('another year and another income can be looked at; nothing is saved', async () => {
    withPlan()
    const figures = await figuresOf('/cover.json?year=2027&income=90000')
    expect(figures.year).toBe(2027)
    expect(figures.inSight!.lookedAtIncome).toBeCloseTo(90_000, -1)
    const page = await (await app.get('/cover?year=2027&income=90%2C000')).text()
    expect(page).toContain('value="90,000"')
    expect(latestRevision(app.books, 'plan')!.revisionNo).toBe(1)
  })

  test('a wrong amount comes back at its field with what was typed', async () => {
    withPlan()
    const page = await app.get('/cover?income=lots')
    expect(page.status).toBe(422)
    const text = await page.text()
    expect(text).toContain('value="lots"')
    expect(text).toContain('is not an amount')
  })

  test('each table comes as CSV with the numbers of the page', async () => {
    withPlan()
    const room = await (await app.get('/cover.csv?table=room&year=2026')).text()
    expect(room.split('\r\n')[0]).toContain('household income at the line')
    expect(room).toContain('credit line,106600.00,400.00')
    const years = await (await app.get('/cover.csv?table=years')).text()
    expect(years).toContain('2026,Ada,44,12,0,0,0,0,')
    for (const table of ['credit', 'kept', 'ages']) {
      const lines = (await (await app.get(`/cover.csv?table=${table}`)).text()).trim().split('\r\n')
      expect(lines.length).toBeGreaterThan(40)
    }
  })

  test('a year at Medicaid’s line counts neither premium nor credit, and tells the room to the line', async () => {
    withPlan({
      ...plan,
      household: { ...plan.household, pay: [{ id: 'shop', name: 'Shop', person: 'ada', perMonth: 2000 }] },
      health: { ...plan.health, medicaidExpansion: true, careBefore65: 80 },
    })
    const { inSight: sight, rows } = await figuresOf('/cover.json')
    expect(sight!.room.now).toMatchObject({ onMedicaid: true, premium: 0, credit: 0 })
    expect(sight!.room.rooms[0]!.line).toBe('Medicaid line')
    expect(rows[0]!.people[0]!.cover).toEqual([{ kind: 'Medicaid', from: 1, months: 12 }])
    const page = await (await app.get('/cover')).text()
    expect(page).toContain('Medicaid ends')
    // Care is paid in full now: no share of nothing is carried on to the bands above.
    expect(page).not.toMatch(/Infinity|NaN/)
  })
})

describe('the form for who is covered', () => {
  const form = { formId: '6f1c2a52-93a5-4a83-9d1c-0f6a1b0f3c11', basedOn: '1', 'members[]': ['ada', 'cy'] }

  test('opens with the plan’s premiums for the people listed at their ages', async () => {
    withPlan()
    const page = await (await app.get('/cover/marketplace')).text()
    expect(page).toContain('value="2045.60"')
    expect(page).toContain('checked')
  })

  test('saves the premium of those checked as the premium of a person of 21', async () => {
    withPlan()
    // Factors at 44 and 10: 2.162.
    const answer = await app.post('/cover/marketplace', {
      ...form,
      plan: '1081',
      benchmark: '1,297.20',
      care: '40',
      advance: 'yes',
    })
    expect(answer.status).toBe(303)
    const { health } = latestRevision(app.books, 'plan')!.document as { health: PlanInput['health'] }
    expect(health).toMatchObject({
      marketplace: {
        members: [{ person: 'ada' }, { person: 'cy' }],
        planAt21: 500,
        benchmarkAt21: 600,
        advanceCredit: true,
      },
      medicaidExpansion: false,
      careBefore65: 40,
    })
    const { inSight } = await figuresOf('/cover.json')
    expect(inSight!.premiumMonthly).toBeCloseTo(1081, 2)
  })

  // 45 CFR 147.102(a)(1)(iii): the age as the policy is issued. Ada is 45 in July (1.444) and Cy 11 (0.765): 2.209 (CMS's federal curve).
  test('who comes on the marketplace within the year is rated at the age of that month, and keeps the premium typed', async () => {
    withPlan()
    const fields = { ...form, plan: '1104.50', benchmark: '1,325.40', care: '40', advance: 'yes' }
    const july = { 'from.ada': '2026-07', 'from.cy': '2026-07' }
    expect((await app.post('/cover/marketplace', { ...fields, ...july })).status).toBe(303)
    const marketplace = () =>
      (latestRevision(app.books, 'plan')!.document as { health: PlanInput['health'] }).health!.marketplace!
    expect(marketplace()).toMatchObject({ planAt21: 500, benchmarkAt21: 600 })
    const page = await (await app.get('/cover/marketplace')).text()
    expect(page).toContain('value="1104.50"')
    // From May on Ada is 45 too, and Cy 11: nothing else follows. From January they are 44 and 10, at the same premium.
    const opened = await filledForm(app, '/cover/marketplace', {
      'from.ada': '2026-05',
      'from.cy': '2026-05',
    })
    expect((await app.post('/cover/marketplace', opened)).status).toBe(303)
    expect(marketplace()).toMatchObject({ planAt21: 500, benchmarkAt21: 600 })
    const january = await filledForm(app, '/cover/marketplace', { 'from.ada': '', 'from.cy': '' })
    expect((await app.post('/cover/marketplace', january)).status).toBe(303)
    expect(marketplace().planAt21).toBeCloseTo(1104.5 / 2.162, 3)
  })

  test('takes the state’s own way of rating: Massachusetts by its curve, New York by the family', async () => {
    withPlan()
    // Massachusetts: 1.478 at 44 and 0.751 at 10, on 1.183 at 21.
    const sent = { ...form, plan: '1114.50', benchmark: '1114.50', care: '', advance: 'yes' }
    expect((await app.post('/cover/marketplace', { ...sent, ageRating: 'MA' })).status).toBe(303)
    const saved = () =>
      (latestRevision(app.books, 'plan')!.document as { health: PlanInput['health'] }).health!.marketplace!
    expect(saved().ageRating).toBe('MA')
    expect(saved().planAt21).toBeCloseTo(1114.5 / ((1.478 + 0.751) / 1.183), 3)
    expect((await figuresOf('/cover.json')).inSight!.premiumMonthly).toBeCloseTo(1114.5, 1)
    const page = await (await app.get('/cover/place')).text()
    expect(page).toContain('By Massachusetts’s curve')
    expect(await (await app.get('/cover/marketplace')).text()).toMatch(/value="MA" selected/)
    // New York: one adult with children is 1.7 of one adult; nothing rises with age.
    const second = { ...sent, formId: '6f1c2a52-93a5-4a83-9d1c-0f6a1b0f3c12', basedOn: '2', plan: '1700' }
    expect((await app.post('/cover/marketplace', { ...second, ageRating: 'NY' })).status).toBe(303)
    expect(saved().planAt21).toBe(1000)
    const { premiumByAge, ageRating } = await figuresOf('/cover.json')
    expect(ageRating).toBe('NY')
    expect(premiumByAge[64]!.plan).toBe(premiumByAge[21]!.plan)
    expect(await (await app.get('/cover/place')).text()).toContain('New York: by the family, not by age')
    const third = { ...second, formId: '6f1c2a52-93a5-4a83-9d1c-0f6a1b0f3c13', basedOn: '3' }
    const wrong = await app.post('/cover/marketplace', { ...third, ageRating: 'ZZ' })
    expect(wrong.status).toBe(422)
    expect(await wrong.text()).toContain('Choose how premiums rise with age')
  })

  test('a wrong premium, and a premium for nobody, come back with what was typed', async () => {
    withPlan()
    const wrong = await app.post('/cover/marketplace', { ...form, plan: 'much', benchmark: '900', care: '' })
    expect(wrong.status).toBe(422)
    expect(await wrong.text()).toContain('value="much"')
    const nobody = await app.post('/cover/marketplace', {
      formId: form.formId,
      plan: '900',
      benchmark: '900',
      care: '',
    })
    expect(nobody.status).toBe(422)
    expect(await nobody.text()).toContain('Choose who the premium is for')
    expect(latestRevision(app.books, 'plan')!.revisionNo).toBe(1)
  })
})

describe('tax so far', () => {
  const post = (side: 'farm' | 'household', day: string, from: string, to: string, dollars: number) => {
    const books = withAccounts(app.books)
    const amount = Math.round(dollars * 100)
    const lines = [
      { accountId: books.account(side, to).id, amountCents: cents(amount) },
      { accountId: books.account(side, from).id, amountCents: cents(-amount) },
    ]
    const draft = {
      id: randomUUID(),
      sideId: side,
      day: on(day),
      payee: '',
      memo: '',
      source: 'form' as const,
      lines,
    }
    done(postEntry(app.books, act(), draft))
  }

  test('comes from the Schedule F lines of the books, less what was paid since May, with a farmer’s dates', async () => {
    withPlan()
    done(addSide(app.books, act(), { kind: 'farm', name: 'Lantern Hollow' }))
    done(addSide(app.books, act(), { kind: 'household', name: 'The house' }))
    expect((await figuresOf('/cover.json')).tax).toBeNull()
    post('farm', '2026-06-10', 'Vegetables and fruit sold', 'Farm checking', 40_000)
    post('farm', '2026-03-10', 'Farm checking', 'Seeds and plants', 10_000)
    post('household', '2026-02-01', 'Household checking', 'Federal taxes', 900)
    post('household', '2026-06-15', 'Household checking', 'Federal taxes', 500)
    const { tax } = await figuresOf('/cover.json')
    expect(tax).toMatchObject({
      farmGross: 40_000,
      farmExpenses: 10_000,
      farmProfit: 30_000,
      paid: 500,
      isFarmer: true,
    })
    // 30,000 × 0.9235 × 15.3 % is 4,238.87; shared between two people each half rounds by itself.
    expect(tax!.selfEmploymentTax).toBeCloseTo(4238.87, 1)
    expect(tax!.setAside).toBeCloseTo(tax!.total - 500, 2)
    expect(tax!.dates.map((date) => date.day)).toEqual(['2027-01-15', '2027-03-01', '2027-04-15'])
    const page = await (await app.get('/cover/tax')).text()
    expect(page).toContain('Set aside for tax')
    expect(page).toContain('Net farm profit, line 34')
  })
  test('counts the state’s tax, and what was paid of it, where the plan names the state', async () => {
    withPlan({ ...plan, household: { ...plan.household, place: { state: 'PA' } } })
    done(addSide(app.books, act(), { kind: 'farm', name: 'Lantern Hollow' }))
    done(addSide(app.books, act(), { kind: 'household', name: 'The house' }))
    post('farm', '2026-06-10', 'Vegetables and fruit sold', 'Farm checking', 90_000)
    post('household', '2026-06-15', 'Household checking', 'State and local income taxes', 300)
    const { tax } = await figuresOf('/cover.json')
    // 72 P.S. 7302: 3.07 percent of the farm's profit; nothing was paid to the federal side.
    expect(tax!.state).toEqual({ name: 'Pennsylvania', tax: expect.closeTo(2763, 2), paid: 300 })
    expect(tax!.setAside).toBeCloseTo(tax!.total + 2763 - 300, 2)
    expect(await (await app.get('/cover/tax')).text()).toContain('Pennsylvania income tax')
  })
  describe('what is paid in spring', () => {
    const open = (today: string, firstDay: string) => {
      withPlan()
      done(addSide(app.books, act(), { kind: 'farm', name: 'Lantern Hollow' }))
      done(addSide(app.books, act(), { kind: 'household', name: 'The house' }))
      post('farm', firstDay, 'Vegetables and fruit sold', 'Farm checking', 90_000)
      app.setToday(today)
    }
    const pay = (day: string, dollars: number) =>
      post('household', day, 'Household checking', 'Federal taxes', dollars)
    const tax = async () => (await figuresOf('/cover.json')).tax!
    interface WorkedPack {
      tax: {
        worksheet: {
          figures: { balanceDue: number }
          payments: { stillOwed: number }
          estimated: { farmer: boolean; requiredAnnualPayment: number }
        }
      }
    }
    const owedByWorksheet = async () => {
      const pack = (await (await app.get('/year-pack.json?year=2025')).json()) as WorkedPack
      return pack.tax.worksheet.payments.stillOwed
    }

    test('settles the year before; until then what that year owes is in the set-aside', async () => {
      open('2026-02-10', '2025-01-20')
      const owed = await owedByWorksheet()
      expect(owed).toBeGreaterThan(1000)
      // Nothing is earned this year yet: all of the set-aside is last year's.
      expect(await tax()).toMatchObject({ owedForLastYear: owed, setAside: owed, paid: 0 })
      expect(await (await app.get('/cover/tax')).text()).toContain('Still owed for 2025')
      pay('2026-01-15', 1000)
      expect(await owedByWorksheet()).toBeCloseTo(owed - 1000, 2)
      expect((await tax()).owedForLastYear).toBeCloseTo(owed - 1000, 2)
      app.setToday('2026-05-02')
      post('farm', '2026-05-01', 'Vegetables and fruit sold', 'Farm checking', 100)
      expect((await tax()).owedForLastYear).toBeNull()
    })

    test('what is more than the year before owes is paid ahead for this one', async () => {
      open('2026-04-20', '2025-01-20')
      const owed = await owedByWorksheet()
      pay('2026-04-15', owed + 700)
      expect(await owedByWorksheet()).toBeCloseTo(0, 2)
      const { paid, owedForLastYear } = await tax()
      expect(paid).toBeCloseTo(700, 2)
      expect(owedForLastYear).toBeCloseTo(0, 2)
    })

    test('makes the year before a farmer’s year only where the books hold all of it, and then its tax bounds what is paid ahead', async () => {
      open('2026-06-10', '2025-03-20')
      post('household', '2026-02-01', 'Off-farm pay', 'Household checking', 60_000)
      expect((await tax()).isFarmer).toBe(false)
      const { tax: pack } = (await (await app.get('/year-pack.json?year=2026')).json()) as WorkedPack
      expect(pack.worksheet.estimated).toMatchObject({ farmer: false })
      post('farm', '2025-01-02', 'Vegetables and fruit sold', 'Farm checking', 10)
      expect((await tax()).isFarmer).toBe(true)
      const before = (await (await app.get('/year-pack.json?year=2025')).json()) as WorkedPack
      const { figures } = before.tax.worksheet
      const after = (await (await app.get('/year-pack.json?year=2026')).json()) as WorkedPack
      const twoThirds = (2 / 3) * after.tax.worksheet.figures.balanceDue
      expect(after.tax.worksheet.estimated.farmer).toBe(true)
      expect(after.tax.worksheet.estimated.requiredAnnualPayment).toBeCloseTo(
        Math.min(twoThirds, figures.balanceDue),
        2,
      )
    })

    test('counts as the year before’s where the books begin within that year: it may have had other income', async () => {
      open('2026-04-20', '2025-03-20')
      post('farm', '2026-04-01', 'Vegetables and fruit sold', 'Farm checking', 20_000)
      pay('2026-04-15', 9000)
      expect(await tax()).toMatchObject({ paid: 0, owedForLastYear: null })
    })
  })
})

describe('with a place', () => {
  const placed = (place: { state: 'PA'; county?: string }) => ({
    ...plan,
    household: { ...plan.household, place },
    health: { marketplace: { members: plan.health!.marketplace!.members! } },
  })

  test('premiums are the county’s and limits the state’s, each with its source, and the history stands beside the growth', async () => {
    withPlan(placed({ state: 'PA', county: 'Erie County' }))
    const { place, inSight } = await figuresOf('/cover.json')
    expect(place).toMatchObject({ name: 'Erie County, Pennsylvania', ratingArea: 1, premiumsTyped: false })
    // Published for 2026: 292 a month for a child at 0.765 of an adult of 21; at 40 1.278.
    expect(place!.history.at(-1)!.monthly).toBeCloseTo((292 / 0.765) * 1.278, 2)
    expect(place!.historyGrowth).toBeCloseTo((292 / 214) ** (1 / 8) - 1, 6)
    expect(place!.limits).toContainEqual({ who: 'Children’s program (CHIP)', percent: 319, typed: false })
    // Nobody of this household needs more than the marketplace above the children's line.
    expect(inSight!.bands.at(-1)!.premiumMonthly).toBeCloseTo((292 / 0.765) * 5.114, 1)
    const page = await (await app.get('/cover/place')).text()
    for (const text of ['id="county-premiums"', 'KFF', 'Second hand', 'rating area 1'])
      expect(page).toContain(text)
    expect(page).not.toMatch(/NaN|undefined|Infinity/)
  })

  test('without a county the limits stand and premiums are asked for', async () => {
    withPlan(placed({ state: 'PA' }))
    const { place } = await figuresOf('/cover.json')
    expect(place).toMatchObject({ name: 'Pennsylvania', ratingArea: null, history: [] })
    expect(await (await app.get('/cover/place')).text()).toContain('Choose the county for its premiums')
  })
})
