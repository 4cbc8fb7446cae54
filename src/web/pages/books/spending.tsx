// Spending by kind and month, at an address of its own: which books, how many months, until when.
import { Hono } from 'hono'
import { monthText, parseMonth } from '#calendar/month.ts'
import { listSides } from '#db/ledger/account-store.ts'
import { centsToDecimalText } from '#money/format.ts'
import { spendingFigures } from '#today/spending/spending-figures.ts'
import { SpendingPage, type SpendingPageFigures } from '#views/books/spending.tsx'
import { houseFirst } from '#web/forms/account-options.ts'
import { answer, type PageContext } from '#web/forms/answer.tsx'
import { tableOf } from '#web/forms/csv.ts'
import { readQuery } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import type { PageEnv } from '#web/server/context.ts'

export const spendingPages: PageRoom = {
  build: () => new Hono<PageEnv>().get('/books/spending', showSpending),
}

const usualMonths = 12
const mostMonths = 60

function showSpending(c: PageContext) {
  const { books, today } = c.var.web
  const typed = readQuery(c)
  const sides = houseFirst(listSides(books))
  const side = sides.find((one) => one.id === typed.value('side')) ?? sides[0]
  if (!side) return c.redirect('/start', 303)
  const count = /^\d{1,2}$/.test(typed.value('months'))
    ? Number.parseInt(typed.value('months'), 10)
    : usualMonths
  const figures: SpendingPageFigures = {
    side: { id: side.id, kind: side.kind, name: side.name },
    ...spendingFigures(books, today(), {
      sideId: side.id,
      until: parseMonth(typed.value('until')),
      count: Math.min(mostMonths, Math.max(1, count)),
    }),
  }
  const { months, rows, total } = figures
  const query = new URLSearchParams(c.req.query())
  return answer(c, {
    title: `Spending of ${side.name}`,
    figures,
    page: () => (
      <SpendingPage
        figures={figures}
        typed={typed}
        sides={sides.map(({ id, name }) => ({ value: id, label: name }))}
        csv={`/books/spending.csv?${query}`}
      />
    ),
    tables: {
      spending: () =>
        tableOf([...rows, total], {
          kind: (row) => row.name,
          ...Object.fromEntries(
            months.map((month, at) => [
              monthText(month),
              (row: typeof total) => centsToDecimalText(row.spent[at]!),
            ]),
          ),
          together: (row) => centsToDecimalText(row.totalCents),
          expected: (row) => (row.plannedCents === null ? '' : centsToDecimalText(row.plannedCents)),
          'more or less': (row) =>
            row.differenceCents === null ? '' : centsToDecimalText(row.differenceCents),
        }),
    },
  })
}
