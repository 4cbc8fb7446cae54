// What a month asks of the hand: presses, choices and pages of a routine month with two files, 120 transactions and two transfers.
import { randomUUID } from 'node:crypto'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { day, lastDayOf } from '#calendar/day.ts'
import { type Month, month, monthText } from '#calendar/month.ts'
import { addSide, listAccounts } from '#db/ledger/account-store.ts'
import { standingClosing } from '#db/reconcile/closing-store.ts'
import { sortingDesk } from '#db/statements/sorting-desk.ts'
import { type Sorting, sortLines } from '#db/statements/sorting-store.ts'
import { readIn } from '#db/statements/statement-store.ts'
import { countWaiting } from '#db/statements/waiting-lines.ts'
import { openBankFile } from '#ledger/statements/reading/read-file.ts'
import { launch, openHouse, openPage, type RunningHouse } from './house.ts'

let browser: Browser
let house: RunningHouse
afterAll(async () => {
  await house.close()
  await browser.close()
})

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
const balances: Record<Bank, number> = { 'Household checking': 0, 'Farm checking': 0 }
const prepare = () => {
  for (const [kind, name] of [
    ['farm', 'Reedmoor'],
    ['household', 'Household'],
  ] as const)
    expect(addSide(house.books, act(), { kind, name }).ok).toBe(true)
  for (const bank of Object.keys(payees) as Bank[]) {
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
  const targets = new Map<string, string>(Object.values(payees).flat() as unknown as [string, string][])
  const sortings = sortingDesk(house.books).lines.flatMap(({ line, proposal }): Sorting[] => {
    if (proposal?.kind === 'transfer')
      return line.id < proposal.otherLine.id
        ? [{ lineId: line.id, kind: 'transfer', otherLineId: proposal.otherLine.id }]
        : []
    const accountId = idOf(targets.get(line.payee)!)
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
}

beforeAll(async () => {
  browser = await launch()
  house = await openHouse('empty')
  prepare()
})

/** Counts as the hand does: a press, a choice from a list or a field filled, and each page that is loaded. */
const counting = (page: Page) => {
  const count = { presses: 0, choices: 0, pages: 0 }
  page.on('framenavigated', (frame) => {
    if (frame === page.mainFrame()) count.pages += 1
  })
  return {
    count,
    async press(name: string | RegExp) {
      count.presses += 1
      await page.getByRole('button', { name }).or(page.getByRole('link', { name })).first().click()
      await page.waitForLoadState()
    },
  }
}

test('a routine month takes at most twelve presses and four pages', { timeout: 120_000 }, async () => {
  const { page } = await openPage(browser, house.base)
  const hand = counting(page)
  const files = (Object.keys(payees) as Bank[]).map((bank) => ({
    name: `${bank}.ofx`,
    mimeType: 'application/x-ofx',
    buffer: Buffer.from(fileOf(bank, october, 56, 2, balances[bank]).text),
  }))
  await page.goto('/month')
  const visited = new Set<string>([new URL(page.url()).pathname])
  page.on(
    'framenavigated',
    () => void visited.add(new URL(page.url()).pathname.replace(/[\da-f-]{36}/, ':key')),
  )
  hand.count.presses += 1
  await page.getByLabel('Files from the bank').setInputFiles(files)
  await hand.press('Look at what is new')
  await hand.press('Read in 120 transactions')
  await hand.press(/^Book \d+ transactions$/)
  expect(countWaiting(house.books).waiting).toBe(4)
  await hand.press('Say what the other 4 were for')
  for (const select of await page.getByRole('combobox').all()) {
    hand.count.choices += 1
    await select.selectOption({
      label: (await select.textContent())!.includes('Groceries') ? 'Groceries' : 'Supplies',
    })
  }
  await hand.press('Book the ticked lines')
  expect(countWaiting(house.books).waiting).toBe(0)
  await hand.press('This month')
  await hand.press('Reconcile these 2')
  await hand.press('Close October 2026')
  expect(standingClosing(house.books, 'household')?.month).toBe(october)
  expect(standingClosing(house.books, 'farm')?.month).toBe(october)
  console.info(`A routine month: ${JSON.stringify(hand.count)}; pages: ${[...visited].join(', ')}`)
  expect(hand.count.presses).toBeLessThanOrEqual(12)
  expect(visited.size).toBeLessThanOrEqual(4)
  await page.context().close()
})
