// Bank statements: choose a file, look at what it would add, read it in. What a file holds is never trusted, only shown.
import { Hono } from 'hono'
import { listSides } from '#db/ledger/account-store.ts'
import { listStatements } from '#db/statements/statement-store.ts'
import { countWaiting } from '#db/statements/waiting-lines.ts'
import { accountsIn } from '#ledger/statements/reading/read-file.ts'
import { describeBroken } from '#ledger/statements/statement.ts'
import { centsToDecimalText } from '#money/format.ts'
import { type StatementsFigures, StatementsPage } from '#views/books-statements/statements.tsx'
import { answer, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import { type FormErrors, readForm, readQuery, statusOf } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import type { PageEnv } from '#web/server/context.ts'
import { heldFiles } from './held-files.ts'
import { severalAddress, togetherHeld } from './held-together.ts'
import { readSeveral, showSeveral } from './several.tsx'
import { readInLook, showLook, togetherIn } from './statement-look.tsx'
import { showTakeBack, takeBack } from './take-back.tsx'

export const statementPages: PageRoom = {
  uploads: ['/books/statements/read'],
  build: () => {
    const held = heldFiles()
    const together = togetherHeld(held)
    const chosen = (c: PageContext) => together.find(c.req.param('key') ?? '', c.var.web.clock.now())
    return new Hono<PageEnv>()
      .get('/books/statements', (c) => showStatements(c, {}))
      .post('/books/statements/read', async (c) => {
        const files = (await readForm(c)).files('file')
        const [file] = files
        if (files.length > 1)
          return c.redirect(severalAddress(await together.hold(files, c.var.web.clock.now())), 303)
        if (!file) return showStatements(c, { file: 'Choose a file first, one that is not empty' })
        const bytes = new Uint8Array(await file.arrayBuffer())
        const kept = await held.hold(file.name, bytes, c.var.web.clock.now())
        if ('message' in kept) return showStatements(c, { file: describeBroken(kept) })
        return c.redirect(
          accountsIn(kept.opened) > 1
            ? severalAddress(together.alone(kept))
            : `/books/statements/read/${kept.key}`,
          303,
        )
      })
      .get('/books/statements/:id{[\\w.-]{1,120}}/take-back', (c) => showTakeBack(c, c.req.param('id')))
      .post('/books/statements/:id{[\\w.-]{1,120}}/take-back', (c) => takeBack(c, c.req.param('id')))
      .get('/books/statements/several/:key', (c) => showSeveral(c, chosen(c)))
      .post('/books/statements/several/:key', (c) => readSeveral(c, chosen(c)))
      .get('/books/statements/read', (c) => c.redirect('/books/statements', 302))
      .get('/books/statements/read/:key', (c) =>
        showLook(
          c,
          held.find(c.req.param('key'), c.var.web.clock.now()),
          together.find(togetherIn(readQuery(c)), c.var.web.clock.now()),
        ),
      )
      .post('/books/statements/read/:key', (c) =>
        readInLook(c, held.find(c.req.param('key'), c.var.web.clock.now())),
      )
  },
}

function showStatements(c: PageContext, errors: FormErrors) {
  const { books } = c.var.web
  const sides = new Map(listSides(books, { withArchived: true }).map((side) => [side.id, side.name]))
  const figures: StatementsFigures = {
    statements: listStatements(books).map((each) => ({
      id: each.id,
      account: each.accountName,
      side: sides.get(each.sideId) ?? each.sideId,
      fileName: each.fileName,
      firstDay: each.firstDay,
      lastDay: each.lastDay,
      lines: each.lines,
      newLines: each.newLines,
      closingBalance: each.closingBalance,
      readOn: each.importedAt,
    })),
    ...countWaiting(books),
  }
  return answer(c, {
    title: 'Bank statements',
    status: statusOf(errors),
    figures,
    page: () => <StatementsPage figures={figures} errors={errors} />,
    tables: {
      statements: () =>
        tableOf(figures.statements, {
          account: (row) => row.account,
          side: (row) => row.side,
          'first day': (row) => row.firstDay,
          'last day': (row) => row.lastDay,
          lines: (row) => row.lines,
          new: (row) => row.newLines,
          balance: (row) => (row.closingBalance === null ? '' : centsToDecimalText(row.closingBalance)),
          file: (row) => row.fileName,
          'read in': (row) => row.readOn,
        }),
    },
  })
}
