// The Cover page: its figures for a year and an income, as page, JSON and CSV, and the form for who is covered at what premium.
import { type Context, Hono } from 'hono'
import { z } from 'zod'
import { centsToDollars } from '#money/cents.ts'
import { CoverPage } from '#views/cover/cover.tsx'
import type { CoverFigures } from '#views/cover/figures.ts'
import { MarketplacePage } from '#views/cover/marketplace.tsx'
import { actOf, errorsOf } from './act.ts'
import { answer, moveOn, type PageContext } from './answer.tsx'
import type { PageEnv } from './context.ts'
import { coverFigures } from './cover-figures.ts'
import { marketplaceForm, marketplacePeople, openingMarketplace, saveMarketplace } from './cover-plan.ts'
import { coverTables } from './cover-tables.ts'
import { moneyOrNull, wholeNumberOrNull } from './fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  readForm,
  readQuery,
  type TypedForm,
} from './form.ts'
import type { PageRoom } from './page-room.ts'

export const coverPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/cover', showCover)
      .get('/cover/marketplace', (c) =>
        showMarketplace(
          c,
          openingForm({ ...openingMarketplace(c.var.web.books, c.var.web.today()), formId: newFormId() }),
          {},
        ),
      )
      .post('/cover/marketplace', async (c) => {
        const typed = await readForm(c)
        const checked = checkForm(marketplaceForm, typed)
        if (!checked.ok) return showMarketplace(c, typed, checked.errors)
        const { books } = c.var.web
        const problems = saveMarketplace(
          books,
          actOf(c, checked.value.formId),
          checked.value,
          typed.values('members[]'),
          c.var.web.today(),
        )
        if (problems.length > 0) return showMarketplace(c, typed, errorsOf(problems))
        return moveOn(c, '/cover', 'Who is covered and the premiums are saved in the plan.')
      }),
}

const wishForm = z.object({ year: wholeNumberOrNull(2000, 2200), income: moneyOrNull() })

function showCover(c: Context<PageEnv>) {
  const { web } = c.var
  const typed = readQuery(c)
  const checked = checkForm(wishForm, typed)
  const wish = checked.ok
    ? {
        year: checked.value.year,
        income: checked.value.income === null ? null : centsToDollars(checked.value.income),
      }
    : { year: null, income: null }
  const figures: CoverFigures = coverFigures(web.books, web.today(), wish)
  return answer(c, {
    title: 'Cover',
    status: checked.ok ? 200 : 422,
    figures,
    page: () => <CoverPage figures={figures} typed={typed} errors={checked.ok ? {} : checked.errors} />,
    tables: coverTables(figures),
  })
}

const showMarketplace = (c: PageContext, typed: TypedForm, errors: FormErrors) =>
  answer(c, {
    title: 'Who is covered',
    status: Object.keys(errors).length > 0 ? 422 : 200,
    page: () => <MarketplacePage people={marketplacePeople(c.var.web.books)} typed={typed} errors={errors} />,
  })
