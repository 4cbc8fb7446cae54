// What Schedule F asks and the books do not know: said once a year, what is no amount holds on.
import { Hono } from 'hono'
import { z } from 'zod'
import { farmSide } from '#ledger/account.ts'
import { refuse } from '#ledger/problem.ts'
import {
  type FarmSaid,
  ownerships,
  partlyUntaxedLines,
  prepaidLines,
  type WeatherSale,
} from '#ledger/tax/form-said.ts'
import type { zeroCents } from '#money/cents.ts'
import { currentPlan } from '#today/current-plan.ts'
import { booksYear } from '#today/tax/books-year.ts'
import { farmSaid, saidSetting, saveSaidOf } from '#today/tax/said-of-year.ts'
import { FarmFormPage } from '#views/year-pack/farm-form.tsx'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, notFound, type PageContext } from '#web/forms/answer.tsx'
import { yearAskedFor } from '#web/forms/asked/year-asked.ts'
import {
  checkbox,
  moneyZeroOrMoreOrNull,
  optionalText,
  percentOrNull,
  quantityOrNull,
  wholeNumberOrNull,
} from '#web/forms/fields.ts'
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
import {
  amountOf,
  amountText,
  businessFields,
  businessOf,
  businessProblems,
  businessText,
  numberText,
  wordOf,
  yesNo,
} from './business-form.ts'
import { farmSaidProblems } from './farm-form-problems.ts'

export const farmFormPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/year-pack/schedule-f', (c) => show(c, null, {}))
      .post('/year-pack/schedule-f', save),
}

const perLine = () => z.record(z.string().max(60), moneyZeroOrMoreOrNull()).default({})

const weatherRow = z.object({
  what: optionalText(40),
  origin: z
    .enum(['raised', 'bought'], { error: 'Choose whether they were raised or bought' })
    .default('raised'),
  sold: wholeNumberOrNull(0, 1_000_000),
  usual: wholeNumberOrNull(0, 1_000_000),
  income: moneyZeroOrMoreOrNull(),
})

const farmForm = z.object({
  ...businessFields,
  ownership: z
    .union([z.literal(''), z.enum(ownerships)], { error: 'Choose whose farm it is' })
    .default('')
    .transform((word) => (word === '' ? null : word)),
  owner: optionalText(60),
  firstShare: percentOrNull().refine((share) => share === null || (share > 0 && share < 1), {
    error: 'Enter a share between 0 and 100, like 50',
  }),
  untaxed: perLine(),
  loansAsIncome: yesNo(),
  loansReceived: moneyZeroOrMoreOrNull(),
  cropPutOff: moneyZeroOrMoreOrNull(),
  weather: z.array(weatherRow).max(12).default([]),
  prepaid: perLine(),
  prepaidExempt: checkbox(),
  conservationBefore: moneyZeroOrMoreOrNull(),
  replaced: perLine(),
  weatherArea: yesNo(),
  gasolineGallons: quantityOrNull(),
  dieselGallons: quantityOrNull(),
})
type FarmForm = z.output<typeof farmForm>

const saidOf = (read: FarmForm): FarmSaid => ({
  ...businessOf(read),
  ownership: read.ownership,
  owner: read.owner === '' ? null : read.owner,
  firstShare: read.firstShare,
  untaxed: amountsOf(partlyUntaxedLines, read.untaxed),
  loansAsIncome: read.loansAsIncome,
  loansReceivedCents: amountOf(read.loansReceived),
  cropPutOffCents: amountOf(read.cropPutOff),
  weatherSales: read.weather.filter((row) => !isBlank(row)).map(weatherOf),
  prepaid: amountsOf(prepaidLines, read.prepaid),
  prepaidExempt: read.prepaidExempt,
  conservationBeforeCents: amountOf(read.conservationBefore),
  weatherArea: read.weatherArea,
  fuel: { gasolineGallons: read.gasolineGallons, dieselGallons: read.dieselGallons },
  replaced: Object.fromEntries(
    Object.entries(read.replaced).flatMap(([id, amount]) =>
      amount === null || amount === 0 ? [] : [[id, amount]],
    ),
  ),
})

const amountsOf = <Line extends string>(lines: readonly Line[], read: FarmForm['untaxed']) =>
  Object.fromEntries(lines.map((line) => [line, amountOf(read[`line${line}`] ?? null)])) as Record<
    Line,
    typeof zeroCents
  >

const isBlank = (row: FarmForm['weather'][number]): boolean =>
  row.what === '' && row.sold === null && row.usual === null && row.income === null

const weatherOf = (row: FarmForm['weather'][number]): WeatherSale => ({
  what: row.what,
  origin: row.origin,
  sold: row.sold ?? 0,
  usual: row.usual ?? 0,
  incomeCents: amountOf(row.income),
})

const textOf = (said: FarmSaid): Record<string, string> => ({
  ...businessText(said),
  ownership: said.ownership ?? '',
  owner: said.owner ?? '',
  firstShare: said.firstShare === null ? '' : String(Math.round(said.firstShare * 10_000) / 100),
  ...Object.fromEntries(
    partlyUntaxedLines.map((line) => [`untaxed.line${line}`, amountText(said.untaxed[line])]),
  ),
  weatherArea: wordOf(said.weatherArea),
  loansAsIncome: wordOf(said.loansAsIncome),
  loansReceived: amountText(said.loansReceivedCents),
  cropPutOff: amountText(said.cropPutOffCents),
  ...Object.fromEntries(
    said.weatherSales.flatMap((sale, i) => [
      [`weather.${i}.what`, sale.what],
      [`weather.${i}.origin`, sale.origin],
      [`weather.${i}.sold`, String(sale.sold)],
      [`weather.${i}.usual`, String(sale.usual)],
      [`weather.${i}.income`, amountText(sale.incomeCents)],
    ]),
  ),
  ...Object.fromEntries(prepaidLines.map((line) => [`prepaid.line${line}`, amountText(said.prepaid[line])])),
  prepaidExempt: said.prepaidExempt ? 'yes' : '',
  conservationBefore: amountText(said.conservationBeforeCents),
  gasolineGallons: numberText(said.fuel.gasolineGallons),
  dieselGallons: numberText(said.fuel.dieselGallons),
  ...Object.fromEntries(
    Object.entries(said.replaced).map(([id, amount]) => [`replaced.${id}`, amountText(amount)]),
  ),
})

const formOf = (c: PageContext, year: number): TypedForm => {
  const { said, revision } = farmSaid(c.var.web.books, year)
  return openingForm({ ...textOf(said), basedOn: String(revision) })
}

const save = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(farmForm, typed),
    again: (typed, errors) => show(c, typed, errors),
    keep(read, typed) {
      const { books } = c.var.web
      const year = yearAskedFor(c)
      const problems = [
        ...farmSaidProblems(booksYear(books, year), read),
        ...businessProblems(read, 'the farm'),
      ]
      if (problems.length > 0) return refuse(...problems)
      const there = `/year-pack/schedule-f?year=${year}`
      const kept = () => moveOn(c, `/year-pack/sheets/schedule-f?year=${year}`, 'Kept for Schedule F.')
      const act = actOf(c, newFormId())
      const saved = settingOverClosed(c, typed, act, () =>
        saveSaidOf(books, act, farmSide, year, saidOf(read), read.basedOn),
      )
      if (asksOverClosed(saved)) return saved
      return saved.ok
        ? kept()
        : showOverTheirs(c, {
            what: `the entries for Schedule F of ${year}`,
            typed,
            now: formOf(c, year),
            subject: saidSetting(farmSide),
            theirs: there,
            alike: kept,
          })
    },
  })

const show = (c: PageContext, typed: TypedForm | null, errors: FormErrors) => {
  const { books } = c.var.web
  const year = yearAskedFor(c)
  const { farm } = booksYear(books, year)
  if (!farm) return notFound(c, 'There are no farm books yet.')
  const form = typed ?? formOf(c, year)
  const current = currentPlan(books)
  const { said, isOwn } = farmSaid(books, year)
  return answer(c, {
    title: `Schedule F of ${year}`,
    status: statusOf(errors),
    figures: { year, said, saidThisYear: isOwn },
    page: () => (
      <FarmFormPage
        year={year}
        form={{ typed: form, errors }}
        booked={farm.form}
        people={current.status === 'read' ? current.plan.household.people : []}
        sales={farm.sales.sales.filter(
          ({ holdingId, gainCents, putOffCents }) => holdingId !== null && (gainCents > 0 || putOffCents > 0),
        )}
        weatherRows={Math.min(12, rowCount(form, 'weather', 1) + (form.value('more') ? 1 : 0))}
        isOwn={isOwn}
      />
    ),
  })
}
