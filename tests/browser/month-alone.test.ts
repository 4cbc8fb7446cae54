// The month's path to its end, its close and review, by the keys alone and with scripts off. An invented house of one account.
import { randomUUID } from 'node:crypto'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { addSide, listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { savePlan } from '#db/plan-store.ts'
import { standingClosing } from '#db/reconcile/closing-store.ts'
import { lastFinished } from '#db/reconcile/reconcile-reader.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { sortLines } from '#db/statements/sorting-store.ts'
import { readIn } from '#db/statements/statement-store.ts'
import { openBankFile } from '#ledger/statements/reading/read-file.ts'
import { cents } from '#money/cents.ts'
import { planSchema, planVersion } from '#plan/plan.ts'
import { closePages, launch, openHouse, openPage } from './house.ts'

let browser: Browser
beforeAll(async () => {
  browser = await launch()
})
afterAll(() => closePages(browser))

const act = () => ({ formId: randomUUID(), at: '2026-10-02T12:00:00.000Z', actor: 'test' })

/** Two purchases of a month, and what is left at its end. */
const ofx = (of: '09' | '10', dollars: readonly [number, number], left: number) =>
  `OFXHEADER:100\nDATA:OFXSGML\nVERSION:102\n\n<OFX><BANKMSGSRSV1><STMTTRNRS><STMTRS><CURDEF>USD<BANKACCTFROM><BANKID>1<ACCTID>7001<ACCTTYPE>CHECKING</BANKACCTFROM><BANKTRANLIST>${dollars
    .map(
      (amount, at) =>
        `<STMTTRN><TRNTYPE>OTHER<DTPOSTED>2026${of}1${at}<TRNAMT>-${amount}.00<FITID>${of}${at}<NAME>TARN GROCER</STMTTRN>`,
    )
    .join(
      '',
    )}</BANKTRANLIST><LEDGERBAL><BALAMT>${left}.00<DTASOF>2026${of}${of === '09' ? '30' : '31'}</LEDGERBAL></STMTRS></STMTTRNRS></BANKMSGSRSV1></OFX>`

/** 3,000.00 at the end of August, September sorted, and a plan. */
const prepared = async () => {
  const house = await openHouse('empty')
  const { books } = house
  const isDone = (outcome: { ok: boolean }) => expect(outcome).toMatchObject({ ok: true })
  for (const [kind, name] of [
    ['farm', 'Sedge End'],
    ['household', 'Household'],
  ] as const)
    isDone(addSide(books, act(), { kind, name }))
  const id = (name: string) =>
    listAccounts(books, { sideId: 'household' }).find((one) => one.name === name)!.id
  const checking = id('Household checking')
  const head = { sideId: 'household' as const, payee: '', memo: '', source: 'opening' as const }
  const lines = [
    { accountId: checking, amountCents: cents(300_000) },
    { accountId: id('Opening balances'), amountCents: cents(-300_000) },
  ]
  isDone(postEntry(books, act(), { ...head, day: day('2026-08-31'), lines }))
  const opened = openBankFile(new TextEncoder().encode(ofx('09', [40, 60], 2900)))
  if (!opened.ok || opened.format !== 'ofx') throw new Error('The file cannot be read')
  const file = { format: 'ofx' as const, fileName: 'a.ofx', contentHash: randomUUID(), columns: null }
  isDone(readIn(books, act(), checking, { ...file, statement: opened.statements[0]! }, day('2026-10-02')))
  const target = { kind: 'account' as const, accountId: id('Groceries'), enterpriseId: null }
  const sortings = sortingDesk(books).lines.map(({ line }) => ({
    lineId: line.id,
    kind: 'target' as const,
    target,
  }))
  isDone(sortLines(books, act(), sortings))
  const plan = planSchema.parse({
    startMonth: '2026-08',
    household: { living: [{ id: 'living', name: 'Living', perMonth: 150 }] },
    savings: { accounts: [{ id: 'cash', name: 'Cash', kind: 'cash', balance: 3000 }] },
    tax: { method: 'none' },
  })
  isDone(
    savePlan(books, act(), {
      planId: 'plan',
      name: 'Plan',
      note: '',
      schemaVersion: planVersion,
      document: plan,
      basedOn: 0,
    }),
  )
  return { house, checking }
}

/** From the files to the review; `press` is the way of the hand. */
const walk = async (page: Page, press: (name: string | RegExp) => Promise<void>) => {
  await page.goto('/month?month=2026-10')
  await page.getByLabel('Files from the bank').setInputFiles({
    name: 'b.ofx',
    mimeType: 'application/x-ofx',
    buffer: Buffer.from(ofx('10', [70, 80], 2750)),
  })
  await press('Look at what is new')
  await press('Read in 2 transactions')
  await page.goto('/month?month=2026-10')
  await press(/^Book 2 transactions$/)
  await press('Reconcile it')
  await press('Close October 2026')
  await page.getByText('October 2026 is closed.').first().waitFor()
}

const expectClosed = ({ house, checking }: Awaited<ReturnType<typeof prepared>>) => {
  expect(lastFinished(house.books, checking)?.statementDay).toBe('2026-10-31')
  expect(standingClosing(house.books, 'household')?.month).toBe(month(2026, 10))
}

test('by the keys alone', { timeout: 120_000 }, async () => {
  const made = await prepared()
  const { page, complaints } = await openPage(browser, made.house.base)
  await walk(page, async (name) => {
    const button = page.getByRole('button', { name }).first()
    await button.waitFor()
    for (let tabs = 0; tabs < 150; tabs += 1) {
      await page.keyboard.press('Tab')
      if (await button.evaluate((one) => one.matches(':focus'))) break
    }
    expect(await button.evaluate((one) => one.matches(':focus'))).toBe(true)
    const next = page.waitForEvent('framenavigated')
    await page.keyboard.press('Enter')
    await next
    await page.waitForLoadState()
  })
  await page.getByRole('heading', { name: 'Since last month' }).waitFor()
  expectClosed(made)
  expect(complaints).toEqual([])
  await page.context().close()
  await made.house.close()
})

test('with scripts off', { timeout: 120_000 }, async () => {
  const made = await prepared()
  const { page } = await openPage(browser, made.house.base, { javaScriptEnabled: false })
  await walk(page, async (name) => {
    await page.getByRole('button', { name }).first().click()
    await page.waitForLoadState()
  })
  const asked = page.getByRole('link', { name: 'Show what last month changed' })
  if ((await asked.count()) > 0) await asked.click()
  await page.getByRole('heading', { name: 'Since last month' }).waitFor()
  expectClosed(made)
  await page.context().close()
  await made.house.close()
})
