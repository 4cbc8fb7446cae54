// The folder to hand over: every sheet as CSV in both bases, all of them as JSON, the receipts of the year, and an index, in one .zip.
import { firstDayOfYear, lastDayOfYear } from '#calendar/day.ts'
import { readAttachment } from '#db/ledger/attachment-store.ts'
import type { Books } from '#db/open.ts'
import { receiptsOfYear, type YearReceipt } from '#db/year/receipts-of-year.ts'
import { centsToDecimalText } from '#money/format.ts'
import { csvText, tableOf } from '#web/forms/csv.ts'
import type { KeptBasis, KeptSheets } from '#web/forms/pack/kept-sheets.ts'
import { plainFileName, type ZippedFile } from './zip-stream.ts'

/** `folder`: where the receipts of these books lie. */
export const filesToHandOver = (books: Books, folder: string, sheets: KeptSheets): ZippedFile[] => {
  const root = `year-pack-${sheets.year}`
  const receipts = receiptsOfYear(books, {
    from: firstDayOfYear(sheets.year),
    to: lastDayOfYear(sheets.year),
  }).map((receipt) => ({ receipt, path: receiptPath(receipt) }))
  const text = (path: string, of: () => string): ZippedFile => ({
    path: `${root}/${path}`,
    bytes: () => new TextEncoder().encode(of()),
    isPacked: false,
  })
  return [
    text('INDEX.txt', () => indexText(sheets, receipts.length)),
    text('pack.json', () => JSON.stringify(sheets, null, 1)),
    ...(['cash', 'accrual'] as const).flatMap((basis) =>
      sheets[basis].sheets
        .filter(({ header }) => header.length > 0)
        .map((sheet) => text(`${basis}/${fileOf(sheet.id)}`, () => csvText(sheet))),
    ),
    text('receipts/receipts.csv', () => receiptsTable(receipts)),
    ...receipts.map(({ receipt, path }) => ({
      path: `${root}/receipts/${path}`,
      bytes: () => readAttachment(books, folder, receipt.attachmentId)?.bytes ?? null,
      isPacked: true,
    })),
  ]
}

const fileOf = (id: string): string => `${plainFileName(id)}.csv`

/** Day, payee and entry first, so that a list by name is a list by day; the entry makes the name its own. */
const receiptPath = ({ day, payee, entryNo, attachmentId, fileName }: YearReceipt): string =>
  [day, plainFileName(payee), `entry ${entryNo}`, attachmentId.slice(-6), plainFileName(fileName)]
    .filter((part) => part !== '')
    .join(' ')

const receiptsTable = (receipts: readonly { receipt: YearReceipt; path: string }[]): string =>
  csvText(
    tableOf(receipts, {
      day: ({ receipt }) => receipt.day,
      side: ({ receipt }) => receipt.side,
      payee: ({ receipt }) => receipt.payee,
      memo: ({ receipt }) => receipt.memo,
      amount: ({ receipt }) => centsToDecimalText(receipt.amountCents),
      entry: ({ receipt }) => receipt.entryNo,
      file: ({ path }) => path,
      'sha-256': ({ receipt }) => receipt.contentHash,
    }),
  )

const indexText = (sheets: KeptSheets, receipts: number): string =>
  [
    `Year pack ${sheets.year}`,
    sheets.cash.days,
    '',
    'Estimates from the books, not advice. Check with a licensed tax preparer or your lender before you act on them.',
    '',
    'OPEN POINTS',
    ...(sheets.cash.open.length === 0 ? ['None.'] : sheets.cash.open.map((says, i) => `${i + 1}. ${says}`)),
    '',
    ...basisText('CASH BASIS, folder cash', sheets.cash),
    ...basisText('CASH BASIS WITH ACCRUAL ADJUSTMENTS, folder accrual', sheets.accrual),
    `RECEIPTS, folder receipts: ${receipts} of the year, listed in receipts.csv. One that is listed and not there could not be read.`,
    '',
    'pack.json holds all sheets in one file. The printed pack is made from the page Year pack, by the browser.',
    '',
  ].join('\r\n')

const basisText = (title: string, { sheets }: KeptBasis): string[] => [
  title,
  ...sheets
    .filter(({ header }) => header.length > 0)
    .map(
      ({ id, of, title: name, total }) =>
        `  ${fileOf(id)}: ${[name, of].filter(Boolean).join(', ')}${total === '' ? '' : `, ${total}`}`,
    ),
  '',
]
