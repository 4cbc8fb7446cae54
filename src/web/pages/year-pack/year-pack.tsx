// The Year pack: its contents, each sheet at its own address, all of them on paper, and every table as CSV.
import { Hono } from 'hono'
import { yearIn } from '#calendar/month.ts'
import { placeBeside } from '#db/data-place.ts'
import { yearsOfBooks } from '#db/ledger/report-store.ts'
import type { PackBasis, YearPackFigures } from '#today/year-pack/figures.ts'
import { yearPackFigures } from '#today/year-pack/year-pack-figures.ts'
import { Part } from '#views/parts/message.tsx'
import { ClosedYear } from '#views/year-pack/whole/closed-year.tsx'
import { EmptyPack, type PackAddresses, PackContents } from '#views/year-pack/whole/contents.tsx'
import { OneSheet, PackPaper } from '#views/year-pack/whole/paper.tsx'
import { packSheets } from '#views/year-pack/whole/sheets.tsx'
import { type Answered, answer, notFound, type PageContext } from '#web/forms/answer.tsx'
import { noSuchYear, yearNamed } from '#web/forms/asked/year-asked.ts'
import { type FormErrors, newFormId, openingForm, statusOf, type TypedForm } from '#web/forms/form.ts'
import { planOpen } from '#web/forms/open-plan.ts'
import { sheetsToKeep } from '#web/forms/pack/kept-sheets.ts'
import { packTables } from '#web/forms/pack/year-pack-tables.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import type { PageEnv } from '#web/server/context.ts'
import { closedYear } from './closing.ts'
import { filesToHandOver } from './folder.ts'
import { zipStream } from './zip-stream.ts'

export const yearPackPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/year-pack', (c) => showPack(c, {}))
      .get('/year-pack/print', (c) => withPack(c, showPaper))
      .get('/year-pack/folder', (c) => withPack(c, sendFolder))
      .get('/year-pack/sheets/:sheet', (c) => withPack(c, showSheet)),
}

interface Asked {
  figures: YearPackFigures
  addresses: PackAddresses
}

const withPack = (c: PageContext, show: (c: PageContext, asked: Asked) => Answered): Answered => {
  const { books } = c.var.web
  const today = c.var.web.today()
  const years = yearsOfBooks(books)
  if (years.length === 0)
    return answer(c, {
      title: 'Year pack',
      figures: { years },
      page: () => <EmptyPack knowsPeople={planOpen(c).status !== 'none'} />,
    })
  const named = yearNamed(c)
  const missing = named === null ? null : withoutPack(c, named)
  if (missing) return missing
  const year = named ?? lastOver(years, yearIn(today))
  const basis: PackBasis = c.req.query('basis') === 'accrual' ? 'accrual' : 'cash'
  const asked = `year=${year}&basis=${basis}`
  return show(c, {
    figures: yearPackFigures(books, year, basis, today),
    addresses: {
      page: (ending) => `/year-pack${ending}?${asked}`,
      csv: (table) => `/year-pack.csv?${asked}&table=${table}`,
    },
  })
}

/** 404 for a year of which the books have nothing; else null. */
export const withoutPack = (c: PageContext, year: number): Answered | null => {
  const years = yearsOfBooks(c.var.web.books)
  return years.includes(year) ? null : noSuchYear(c, 'The year pack', year, { path: '/year-pack', years })
}

/** The contents, or the form that closes the year again with what is wrong. */
export const showPack = (c: PageContext, closing: { typed?: TypedForm; errors?: FormErrors }): Answered =>
  withPack(c, (_, asked) => showContents(c, asked, closing.typed ?? openingForm({}), closing.errors ?? {}))

const showContents = (
  c: PageContext,
  { figures, addresses }: Asked,
  typed: TypedForm,
  errors: FormErrors,
): Answered =>
  answer(c, {
    title: `Year pack ${figures.year}`,
    status: statusOf(errors),
    figures,
    page: () => (
      <PackContents figures={figures} addresses={addresses}>
        <Part
          of={() => (
            <ClosedYear
              closed={closedYear(c, figures.year)}
              timeName={c.var.web.timeName}
              formId={newFormId()}
              typed={typed}
              errors={errors}
            />
          )}
        />
      </PackContents>
    ),
    tables: () => packTables(figures),
  })

const sendFolder = (c: PageContext, { figures: { year } }: Asked): Response => {
  const { books, clock, today } = c.var.web
  const files = filesToHandOver(
    books,
    placeBeside(books.path).attachments,
    sheetsToKeep(books, year, today()),
  )
  return c.body(zipStream(files, clock.now()), 200, {
    'Content-Type': 'application/zip',
    'Content-Disposition': `attachment; filename="year-pack-${year}.zip"`,
  })
}

const showPaper = (c: PageContext, { figures, addresses }: Asked): Answered =>
  answer(c, {
    title: `Year pack ${figures.year}, all sheets`,
    figures,
    page: () => <PackPaper figures={figures} addresses={addresses} madeOn={c.var.web.today()} />,
  })

const showSheet = (c: PageContext, { figures, addresses }: Asked): Answered => {
  const sheet = packSheets(figures).find(({ id }) => id === c.req.param('sheet'))
  if (!sheet) return notFound(c, `The pack of ${figures.year} has no such sheet.`)
  const table = packTables(figures)[sheet.id]
  return answer(c, {
    title: `${sheet.title}, ${sheet.of}, ${figures.year}`,
    ...(table ? { figures: { sheet: sheet.id, ...table() }, tables: { [sheet.id]: table } } : {}),
    page: () => <OneSheet figures={figures} addresses={addresses} sheet={sheet} />,
  })
}

/** Of the years of the books, newest first: the last one that is over; else the newest. */
const lastOver = (years: readonly number[], thisYear: number): number =>
  years.find((year) => year < thisYear) ?? years[0]!
