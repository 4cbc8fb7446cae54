// A small process for the kill tests: closes and reopens months, restores back and forth, or migrates old files, over and over.
import { copyFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { day } from '#calendar/day.ts'
import { month } from '#calendar/month.ts'
import { prepareRestore } from '#db/backup/restore.ts'
import { openBooksOrThrow } from '#db/open.ts'
import { closeMonth, reopenMonth } from '#db/reconcile/closing-store.ts'

const [kind, path, run] = process.argv.slice(2) as ['close' | 'restore' | 'migrate', string, string]
const say = (line: string) => process.stdout.write(`${line}\n`)
const work = { close, restore, migrate }

// Opening takes its time on a busy machine; what is to be killed is the closing.
const standing = kind === 'close' ? openBooksOrThrow(path, { now: new Date() }) : null
say('ready')
for (let count = 0; ; count += 1) work[kind](count)

function close(count: number): void {
  const books = standing!
  const act = (what: string) => ({
    formId: `${run}-${count}-${what}`,
    at: new Date().toISOString(),
    actor: 'keeper',
  })
  const closed = closeMonth(
    books,
    act('close'),
    { sideId: 'farm', month: month(2026, 1), note: run },
    day('2026-03-01'),
  )
  if (!closed.ok) {
    // The one before was killed between closing and reopening: the standing closing is taken up from here.
    const id = books.sqlite
      .prepare('SELECT id FROM month_closings WHERE reopened_at IS NULL')
      .pluck()
      .get() as string
    if (reopenMonth(books, act('again'), id, 'after the kill').ok) say(`reopened ${id}`)
  } else {
    say(`closed ${closed.result.closingId}`)
    if (reopenMonth(books, act('reopen'), closed.result.closingId, 'over and over').ok)
      say(`reopened ${closed.result.closingId}`)
  }
}

function restore(count: number): void {
  const folder = dirname(path)
  const name = count % 2 === 0 ? 'one' : 'two'
  const place = {
    file: path,
    backups: join(folder, 'backups'),
    attachments: join(folder, 'attachments'),
    now: new Date(),
  }
  const prepared = prepareRestore(join(folder, `${name}.sqlite`), place)
  if (!prepared.ok) throw new Error(prepared.problem.message)
  const done = prepared.prepared.carryOut()
  if (!done.ok) throw new Error(done.problem.message)
  say(`restored ${name}`)
}

function migrate(count: number): void {
  const target = `${path}.${run}.${count}`
  copyFileSync(path, target)
  say(`migrating ${target}`)
  openBooksOrThrow(target, { now: new Date() }).close()
  say(`migrated ${target}`)
}
