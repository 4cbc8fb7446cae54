// What a month asks of the hand: presses, choices and pages of a routine month with two files, 120 transactions and two transfers.
import { randomUUID } from 'node:crypto'
import type { Browser, Locator, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest'
import { day, lastDayOf } from '#calendar/day.ts'
import { type Month, month, monthText } from '#calendar/month.ts'
import { addSide, listAccounts } from '#db/ledger/account-store.ts'
import { standingClosing } from '#db/reconcile/closing-store.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { type Sorting, sortLines } from '#db/statements/sorting-store.ts'
import { readIn } from '#db/statements/statement-store.ts'
import { countWaiting } from '#db/statements/waiting-lines.ts'
import { openBankFile } from '#ledger/statements/reading/read-file.ts'
import { closePages, launch, openHouse, openPage, type RunningHouse } from './house.ts'

let browser: Browser
let house: RunningHouse
beforeAll(async () => {
  browser = await launch()
})
afterAll(() => closePages(browser))
beforeEach(async () => {
  house = await openHouse('empty')
  for (const [kind, name] of [
    ['farm', 'Reedmoor'],
    ['household', 'Household'],
  ] as const)
    expect(addSide(house.books, act(), { kind, name }).ok).toBe(true)
})
afterEach(() => house.close())

const idOf = (name: string) => listAccounts(house.books).find((one) => one.name === name)!.id
const act = () => ({ formId: randomUUID(), at: '2026-10-01T12:00:00.000Z', actor: 'test' })

/** Payees of an invented house and farm, and the account each is sorted to. */
const payees = {
  'Household checking': [
    ['TARN GROCER', 'Groceries'],
    ['MILL POND ELECTRIC', 'Utilities'],
    ['ALDER GARAGE', 'Vehicles and travel'],
    ['STONE LANE PHARMACY', 'Care and medicine'],
  ],
  'Farm checking': [
    ['VALLEY GRAIN', 'Feed'],
    ['OXBOW SEED', 'Seeds and plants'],
    ['HOLLOW FUEL', 'Fuel and oil'],
    ['FERRY CRATES', 'Supplies'],
  ],
} as const
type Bank = keyof typeof payees
const banks = Object.keys(payees) as Bank[]
const targets = new Map<string, string>(Object.values(payees).flat() as unknown as [string, string][])
const targetOf = (payee: string): string | undefined => targets.get(payee)

/** A month's file: `count` movements of known payees, `strange` of new ones, and 900 moved from the farm to the house. */
const fileOf = (bank: Bank, of: Month, count: number, strange: number, before: number) => {
  const known = payees[bank]
  const isFarm = bank === 'Farm checking'
  const on = (at: number) => `${monthText(of).replace('-', '')}${String(1 + (at % 27)).padStart(2, '0')}`
  const lines = [
    ...Array.from({ length: count }, (_, at) => ({
      on: on(at),
      cents: -(1000 + at * 7),
      name: known[at % 4]![0],
    })),
    ...Array.from({ length: strange }, (_, at) => ({
      on: on(at),
      cents: -(5000 + at),
      name: `NEW PLACE ${at} ${bank}`,
    })),
    { on: on(4), cents: isFarm ? -90_000 : 90_000, name: isFarm ? 'TRANSFER TO 7001' : 'TRANSFER FROM 7002' },
    {
      on: on(11),
      cents: isFarm ? -45_000 : 45_000,
      name: isFarm ? 'TRANSFER TO 7001' : 'TRANSFER FROM 7002',
    },
  ]
  const money = (cents: number) => (cents / 100).toFixed(2)
  const closing = lines.reduce((sum, line) => sum + line.cents, before)
  const text = `OFXHEADER:100\nDATA:OFXSGML\nVERSION:102\n\n<OFX><BANKMSGSRSV1><STMTTRNRS><STMTRS><CURDEF>USD<BANKACCTFROM><BANKID>1<ACCTID>${isFarm ? 7002 : 7001}<ACCTTYPE>CHECKING</BANKACCTFROM><BANKTRANLIST>${lines
    .map(
      (line, at) =>
        `<STMTTRN><TRNTYPE>OTHER<DTPOSTED>${line.on}<TRNAMT>${money(line.cents)}<FITID>${monthText(of)}-${at}<NAME>${line.name}</STMTTRN>`,
    )
    .join(
      '',
    )}</BANKTRANLIST><LEDGERBAL><BALAMT>${money(closing)}<DTASOF>${lastDayOf(of).replaceAll('-', '')}</LEDGERBAL></STMTRS></STMTTRNRS></BANKMSGSRSV1></OFX>`
  return { text, closing }
}

/** September, sorted and closed the first time: from then on the payees are known. */
const september = month(2026, 9)
const october = month(2026, 10)
type Balances = Record<Bank, number>
const nothing: Balances = { 'Household checking': 0, 'Farm checking': 0 }
const prepare = (): Balances => {
  const balances = { ...nothing }
  for (const bank of banks) {
    const { text, closing } = fileOf(bank, september, 12, 0, 0)
    const opened = openBankFile(new TextEncoder().encode(text))
    if (!opened.ok || opened.format !== 'ofx') throw new Error('The file cannot be read')
    const read = readIn(
      house.books,
      act(),
      idOf(bank),
      {
        format: 'ofx',
        fileName: 'a.ofx',
        contentHash: randomUUID(),
        statement: opened.statements[0]!,
        columns: null,
      },
      day('2026-10-01'),
    )
    expect(read.ok).toBe(true)
    balances[bank] = closing
  }
  const sortings = sortingDesk(house.books).lines.flatMap(({ line, proposal }): Sorting[] => {
    if (proposal?.kind === 'transfer')
      return line.id < proposal.otherLine.id
        ? [{ lineId: line.id, kind: 'transfer', otherLineId: proposal.otherLine.id }]
        : []
    const accountId = idOf(targetOf(line.payee)!)
    return [
      {
        lineId: line.id,
        kind: 'target',
        target: { kind: 'account', accountId, enterpriseId: null },
      },
    ]
  })
  const sorted = sortLines(house.books, act(), sortings)
  expect(sorted.ok ? 'sorted' : sorted.problems).toBe('sorted')
  return balances
}

/** Counts as the hand does: a press, a choice from a list, and each page that is seen. */
const counting = (page: Page) => {
  const count = { presses: 0, choices: 0 }
  const pages = new Set<string>()
  page.on('framenavigated', () => {
    pages.add(new URL(page.url()).pathname.replace(/[\da-f-]{36}/, ':key'))
  })
  const press = async (what: Locator) => {
    count.presses += 1
    await what.first().click()
    await page.waitForLoadState()
  }
  return {
    press: (name: string | RegExp) =>
      press(page.getByRole('button', { name }).or(page.getByRole('link', { name }))),
    async choose(from: Locator, label: string) {
      count.choices += 1
      await from.selectOption({ label })
    },
    /** Both files of October, from the balances that September ended with. */
    async chooseFiles(before: Balances) {
      count.presses += 1
      const files = banks.map((bank) => ({
        name: `${bank}.ofx`,
        mimeType: 'application/x-ofx',
        buffer: Buffer.from(fileOf(bank, october, 56, 2, before[bank]).text),
      }))
      await page.getByLabel('Files from the bank').setInputFiles(files)
      await press(page.getByRole('button', { name: 'Look at what is new' }))
    },
    /** What was counted, printed for DEVELOPERS.md. */
    told(what: string) {
      console.info(`${what}: ${JSON.stringify(count)}; pages: ${[...pages].join(', ')}`)
      return { ...count, pages: pages.size }
    },
  }
}

const expectClosed = () => {
  for (const side of ['household', 'farm']) expect(standingClosing(house.books, side)?.month).toBe(october)
}

/** Whose line it is: the other side's places are offered too, and say whose they are. */
const isOfTheHouse = async (select: Locator): Promise<boolean> =>
  (await select.locator('option').allTextContents()).includes('Groceries')

test('a routine month takes at most twelve presses and four pages', { timeout: 120_000 }, async () => {
  const balances = prepare()
  const { page } = await openPage(browser, house.base)
  const hand = counting(page)
  await page.goto('/month')
  await hand.chooseFiles(balances)
  await hand.press('Read in 120 transactions')
  await hand.press(/^Book \d+ transactions$/)
  expect(countWaiting(house.books).waiting).toBe(4)
  await hand.press('Say what the other 4 were for')
  for (const select of await page.getByRole('combobox', { name: /^Where/ }).all())
    await hand.choose(select, (await isOfTheHouse(select)) ? 'Groceries' : 'Supplies')
  await hand.press('Book the checked transactions')
  expect(countWaiting(house.books).waiting).toBe(0)
  await hand.press('This month')
  await hand.press('Reconcile these 2')
  await hand.press('Close October 2026')
  expectClosed()
  const told = hand.told('A routine month')
  expect(told.presses).toBeLessThanOrEqual(12)
  expect(told.pages).toBeLessThanOrEqual(4)
  await page.context().close()
})

test('a first month, with accounts and payees that nobody knows, takes at most thirty presses', {
  timeout: 120_000,
}, async () => {
  const { page } = await openPage(browser, house.base)
  const hand = counting(page)
  await page.goto('/month?month=2026-10')
  await hand.chooseFiles(nothing)
  await hand.choose(page.getByLabel('7001 is'), 'Household checking')
  await hand.choose(page.getByLabel('7002 is'), 'Farm checking')
  await hand.press('Preview again')
  await hand.press('Read in 120 transactions')
  await hand.press(/^Say what/)
  for (let round = 0; countWaiting(house.books).waiting > 0; round += 1) {
    expect(round).toBeLessThan(6)
    for (const row of await page.locator('.desk-group').all()) {
      const payee = (await row.locator('strong').textContent())!
      const select = row.getByRole('combobox', { name: /^Where/ })
      if ((await select.inputValue()) !== '') continue
      const own = (await isOfTheHouse(select)) ? 'Groceries' : 'Supplies'
      await hand.choose(select, targetOf(payee) ?? own)
    }
    await hand.press('Book the checked transactions')
  }
  await hand.press('This month')
  await hand.press('Reconcile these 2')
  await hand.press('Close October 2026')
  expectClosed()
  expect(hand.told('A first month').presses).toBeLessThanOrEqual(30)
  await page.context().close()
})
