// A small process for the kill tests: posts, then backs up, over and over, and says which backups were acknowledged with how many entries.
import { dirname, join } from 'node:path'
import { addDays, day } from '#calendar/day.ts'
import { backUpToFile } from '#db/backup/backup-file.ts'
import { backUpDaily } from '#db/backup/daily-copy.ts'
import { exportBooks } from '#db/backup/export.ts'
import { listAccounts } from '#db/ledger/account-store.ts'
import { postEntry } from '#db/ledger/ledger-store.ts'
import { openBooksOrThrow } from '#db/open.ts'
import { moneyOut } from '#ledger/simple-entry.ts'
import { cents } from '#money/cents.ts'
import { sealCost } from '../db/fresh-books.ts'

const [path, run, passphrase] = process.argv.slice(2) as [string, string, string?]
const books = openBooksOrThrow(path, { now: new Date() })
const account = (name: string) =>
  listAccounts(books).find((one) => one.sideId === 'farm' && one.name === name)!.id
const say = (line: string) => process.stdout.write(`${line}\n`)
const attachments = join(dirname(path), 'attachments')
const backups = join(dirname(path), 'backups')
const stick = join(dirname(path), 'stick')
const count = () => books.sqlite.prepare('SELECT count(*) FROM entries').pluck().get() as number

const toFile = (name: string) => join(stick, `${run}-${name}`)
const ways: readonly ((
  turn: number,
) => { ok: true; path: string } | { ok: false; problem: unknown } | null)[] =
  passphrase === undefined
    ? [
        (turn) => backUpToFile(books, toFile(`${turn}.sqlite`), { attachments }),
        (turn) => exportBooks(books.sqlite, toFile(`${turn}.json`), { now: new Date(0), attachments }),
        () => backUpDaily(books, backups, addDays(day('2026-01-01'), count())),
      ]
    : [(turn) => backUpToFile(books, toFile(`${turn}.dooryard`), { attachments, passphrase, sealCost })]

say('ready')
for (let turn = 0; ; turn += 1) {
  const head = { id: '', sideId: 'farm', day: day('2026-02-01'), payee: 'Seed house', memo: '' }
  const act = { formId: `${run}-${turn}`, at: new Date().toISOString(), actor: 'writer' }
  const lines = [{ accountId: account('Supplies'), amountCents: cents(100 + turn) }]
  const posted = postEntry(books, act, moneyOut(head, account('Farm checking'), lines))
  if (!posted.ok) throw new Error(JSON.stringify(posted))
  // Another one first in each life, so that kills meet all of them.
  const way = ways[(turn + Number.parseInt(run, 10)) % ways.length]!
  const made = way(turn)
  if (made && !made.ok) throw new Error(JSON.stringify(made.problem))
  if (made) say(`backed ${made.path} ${count()}`)
}
