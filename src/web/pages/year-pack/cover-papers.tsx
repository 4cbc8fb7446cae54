// Form 1095-A of a year by month: entered as it came, kept by year.
import { Hono } from 'hono'
import { z } from 'zod'
import { refuse } from '#ledger/problem.ts'
import { type CoverPaper, coverByMonth, isAheadOfPremium, isAlike } from '#ledger/tax/cover-papers.ts'
import { type Cents, zeroCents } from '#money/cents.ts'
import { centsToDecimalText, formatCents } from '#money/format.ts'
import { coverPapers, coverPapersSetting, saveCoverPapers } from '#today/tax/cover-papers.ts'
import { CoverPapersPage } from '#views/tax-paid/cover-papers.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { yearAskedFor } from '#web/forms/asked/year-asked.ts'
import { checkbox, moneyZeroOrMoreOrNull, optionalText, wholeNumber } from '#web/forms/fields.ts'
import {
  checkForm,
  type FormErrors,
  newFormId,
  openingForm,
  rowCount,
  statusOf,
  type TypedForm,
} from '#web/forms/form.ts'
import { asksOverClosed, settingOverClosed } from '#web/forms/pack/closed-years.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import { showOverTheirs } from '#web/forms/two-versions.tsx'
import type { PageEnv } from '#web/server/context.ts'

export const coverPaperPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/year-pack/cover-papers', (c) => show(c, formOf(c), {}))
      .post('/year-pack/cover-papers', save),
}

const column = () => z.record(z.string().regex(/^(m\d{1,2}|all)$/), moneyZeroOrMoreOrNull()).default({})

const papersForm = z.object({
  basedOn: wholeNumber(0, 1_000_000_000),
  papers: z
    .array(z.object({ who: optionalText(120), premium: column(), benchmark: column(), advance: column() }))
    .max(8)
    .default([]),
  ahead: checkbox(),
})

const formOf = (c: PageContext): TypedForm => {
  const { papers, revision } = coverPapers(c.var.web.books, yearAskedFor(c))
  const text = (amount: Cents) => (amount === 0 ? '' : centsToDecimalText(amount))
  return openingForm({
    basedOn: String(revision),
    ...Object.fromEntries(
      papers.flatMap(({ who, months }, i) => [
        [`papers.${i}.who`, who],
        ...(isAlike(months)
          ? [['all', months[0]!] as const]
          : months.map((month, m) => [`m${m + 1}`, month] as const)
        ).flatMap(([at, { premiumCents, benchmarkCents, advanceCents }]) => [
          [`papers.${i}.premium.${at}`, text(premiumCents)],
          [`papers.${i}.benchmark.${at}`, text(benchmarkCents)],
          [`papers.${i}.advance.${at}`, text(advanceCents)],
        ]),
      ]),
    ),
  })
}

type Column = Readonly<Record<string, Cents | null>>

/** A month of its own goes before what is said of every month. */
const inMonth = (column: Column, i: number): Cents => column[`m${i + 1}`] ?? column.all ?? zeroCents

/** Tables left empty are none. */
const papersOf = ({ papers }: z.output<typeof papersForm>): CoverPaper[] =>
  papers
    .map(({ who, premium, benchmark, advance }) => ({
      who,
      months: Array.from({ length: 12 }, (_, i) => ({
        premiumCents: inMonth(premium, i),
        benchmarkCents: inMonth(benchmark, i),
        advanceCents: inMonth(advance, i),
      })),
    }))
    .filter(({ months }) => months.some((month) => Object.values(month).some((sum) => sum > 0)))

/** As typed, not as kept: tables left empty between others move none of the fields. */
const aheadOfPremium = ({ papers, ahead }: z.output<typeof papersForm>) =>
  ahead
    ? []
    : papers.flatMap(({ premium, advance }, place) =>
        Array.from({ length: 12 }, (_, i) => i).flatMap((i) => {
          const [premiumCents, advanceCents] = [inMonth(premium, i), inMonth(advance, i)]
          const at = (advance[`m${i + 1}`] ?? null) === null ? 'all' : `m${i + 1}`
          return isAheadOfPremium({ premiumCents, advanceCents, benchmarkCents: zeroCents })
            ? [
                {
                  path: `papers.${place}.advance.${at}`,
                  message: `More than the premium of ${formatCents(premiumCents)} in column A. Look at the form again. If it says so, check the box below`,
                },
              ]
            : []
        }),
      )

const save = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(papersForm, typed),
    again: (typed, errors) => show(c, typed, errors),
    keep(read, typed) {
      const slips = aheadOfPremium(read)
      if (slips.length > 0) return refuse(...slips)
      const year = yearAskedFor(c)
      const there = `/year-pack/cover-papers?year=${year}`
      const kept = () => moveOn(c, there, 'Kept: what the marketplace says.')
      const act = actOf(c, newFormId())
      const saved = settingOverClosed(c, typed, act, () =>
        saveCoverPapers(c.var.web.books, act, year, papersOf(read), read.basedOn),
      )
      if (asksOverClosed(saved)) return saved
      return saved.ok
        ? kept()
        : showOverTheirs(c, {
            what: `what Form 1095-A of ${year} says`,
            typed,
            now: formOf(c),
            subject: coverPapersSetting,
            theirs: there,
            alike: kept,
          })
    },
  })

const show = (c: PageContext, typed: TypedForm, errors: FormErrors) => {
  const year = yearAskedFor(c)
  const { papers } = coverPapers(c.var.web.books, year)
  return answer(c, {
    title: `Form 1095-A of ${year}`,
    status: statusOf(errors),
    figures: { year, papers, months: coverByMonth(papers) },
    page: () => (
      <CoverPapersPage
        year={year}
        form={{ typed, errors }}
        count={Math.min(8, Math.max(papers.length, rowCount(typed, 'papers', 0)) + 1)}
      />
    ),
  })
}
