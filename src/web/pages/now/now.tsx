// The Now page; without books yet, the way to the start.
import { Hono } from 'hono'
import { monthText } from '#calendar/month.ts'
import { hasHousehold } from '#db/ledger/account-store.ts'
import { centsToDecimalText } from '#money/format.ts'
import { nowFigures } from '#today/now/now-figures.ts'
import { NowPage } from '#views/now/now.tsx'
import { SavingsPicture } from '#views/now/savings.tsx'
import { answer, formatAsked } from '#web/forms/answer.tsx'
import { newFormId } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import type { PageEnv } from '#web/server/context.ts'

export const nowPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>().get('/now', (c) => {
      const { books } = c.var.web
      if (!hasHousehold(books) && formatAsked(c) === 'html') return c.redirect('/start', 302)
      const withStorms = c.req.query('storms') === 'yes' || formatAsked(c) !== 'html'
      const figures = nowFigures(books, c.var.web.today(), withStorms)
      return answer(c, {
        title: 'Now',
        figures,
        page: () => <NowPage figures={figures} formId={newFormId()} />,
        parts: { 'savings-picture': () => <SavingsPicture figures={figures} /> },
        tables: {
          savings: () => ({
            header: ['month', 'spendable savings', 'low', 'high', 'from'],
            rows: [
              ...figures.past.map((one) => [
                monthText(one.month),
                centsToDecimalText(one.cents),
                '',
                '',
                'books',
              ]),
              ...figures.future.map((one) => [
                monthText(one.month),
                one.dollars.toFixed(2),
                one.low.toFixed(2),
                one.high.toFixed(2),
                'plan',
              ]),
            ],
          }),
        },
      })
    }),
}
