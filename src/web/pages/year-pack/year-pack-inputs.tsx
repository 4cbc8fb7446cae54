// Forms for what the books do not know: said once a year, market values, items of the year's end.
import { Hono } from 'hono'
import { z } from 'zod'
import { lastDayOfYear } from '#calendar/day.ts'
import { findAccount } from '#db/ledger/account-store.ts'
import { bookYears } from '#db/ledger/report-store.ts'
import type { Books } from '#db/open.ts'
import { saveHoldingValues } from '#db/year/holding-values.ts'
import { addAccrual, marketValuesOn, removeAccrual, saveMarketValues } from '#db/year-store.ts'
import { refuse } from '#ledger/problem.ts'
import { accrualKinds } from '#ledger/reports/accrual.ts'
import type { Cents } from '#money/cents.ts'
import { centsToDecimalText } from '#money/format.ts'
import { parsePercent } from '#money/parse.ts'
import { type PackYear, packSetting, packYear, savePackYear } from '#today/year-pack/year-pack-settings.ts'
import { PackInputsPage } from '#views/year-pack/inputs.tsx'
import type { InputForm } from '#views/year-pack/inputs-shape.ts'
import { actOf } from '#web/forms/act.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { yearAskedFor } from '#web/forms/asked/year-asked.ts'
import {
  choice,
  formIdField,
  money,
  moneyOrNull,
  optionalText,
  requiredText,
  wholeNumber,
} from '#web/forms/fields.ts'
import { checkForm, newFormId, openingForm, type TypedForm } from '#web/forms/form.ts'
import { asksOverClosed, overClosedYears, settingOverClosed } from '#web/forms/pack/closed-years.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { posted } from '#web/forms/posted.ts'
import { showOverTheirs } from '#web/forms/two-versions.tsx'
import type { PageEnv } from '#web/server/context.ts'
import { inputsOf } from './inputs-of-year.ts'

export const yearPackInputPages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/year-pack/inputs', (c) => show(c, {}))
      .post('/year-pack/inputs/said', saveSaid)
      .post('/year-pack/inputs/market', saveMarket)
      .post('/year-pack/inputs/things', saveThings)
      .post('/year-pack/inputs/items', addItem)
      .post('/year-pack/inputs/items/:id/remove', removeItem),
}

const amounts = z.record(z.string().regex(/^a\d{1,12}$/), moneyOrNull()).default({})

/** Empty leaves the tax out. */
const taxRate = z
  .string()
  .optional()
  .transform((text, context): number | null => {
    if ((text ?? '').trim() === '') return null
    const read = parsePercent(text ?? '')
    if (read.ok && read.value >= 0 && read.value <= 0.9) return read.value
    context.issues.push({ code: 'custom', message: 'Enter a percentage from 0 to 90, like 25', input: text })
    return z.NEVER
  })

const saidForm = z.object({
  basedOn: wholeNumber(0, 1_000_000_000),
  deferredTaxRate: taxRate,
  unpaidLabor: moneyOrNull(),
  replacement: moneyOrNull(),
  due: amounts,
})

const marketForm = z.object({ formId: formIdField(), market: amounts })

const thingsForm = z.object({
  formId: formIdField(),
  value: z.record(z.string().max(80), moneyOrNull()).default({}),
})

const itemForm = z.object({
  formId: formIdField(),
  at: z.enum(['end', 'begin']).default('end'),
  side: requiredText('Choose the books'),
  kind: choice(accrualKinds, 'Choose a kind'),
  name: requiredText('Say what it is, like unsold garlic', 120),
  amount: money(),
})

const removeForm = z.object({ formId: formIdField(), side: optionalText() })

interface Typed {
  said?: InputForm
  market?: InputForm
  things?: InputForm
  accrual?: InputForm
}

const show = (c: PageContext, typed: Typed, status: 200 | 409 | 422 = 200) => {
  const { books } = c.var.web
  const year = yearAskedFor(c)
  const ground = inputsOf(c.var.web.books, year)
  const { saved, isOwn } = packYear(books, year)
  const values = marketValuesOn(books, lastDayOfYear(year))
  const opening = (form: InputForm | undefined, values: Record<string, string>): InputForm =>
    form ?? { typed: openingForm(values), errors: {} }
  return answer(c, {
    title: `For the year pack ${year}`,
    status,
    figures: { ...ground, said: saved, saidThisYear: isOwn },
    page: () => (
      <PackInputsPage
        inputs={ground}
        said={opening(typed.said, saidText(saved))}
        market={opening(
          typed.market,
          keyed(
            'market',
            ground.lasting.map(({ id }) => [id, values.get(id)?.amountCents] as const),
          ),
        )}
        things={opening(
          typed.things,
          Object.fromEntries(
            ground.things.map(({ id, valueCents }) => [
              `value.${id}`,
              valueCents === null ? '' : centsToDecimalText(valueCents),
            ]),
          ),
        )}
        accrual={opening(typed.accrual, {})}
        formIds={{
          market: newFormId(),
          things: newFormId(),
          accrual: newFormId(),
          removal: () => newFormId(),
        }}
      />
    ),
  })
}

const saidText = (said: PackYear): Record<string, string> => ({
  deferredTaxRate:
    said.deferredTaxRate === null ? '' : String(Math.round(said.deferredTaxRate * 10_000) / 100),
  unpaidLabor: said.unpaidLabourCents === null ? '' : centsToDecimalText(said.unpaidLabourCents),
  replacement: said.replaceCents === null ? '' : centsToDecimalText(said.replaceCents),
  ...keyed(
    'due',
    Object.entries(said.dueWithinYear).map(([id, due]) => [Number(id), due] as const),
  ),
})

const keyed = (
  name: string,
  amounts: readonly (readonly [number, Cents | undefined])[],
): Record<string, string> =>
  Object.fromEntries(
    amounts.map(([id, amount]) => [`${name}.a${id}`, amount === undefined ? '' : centsToDecimalText(amount)]),
  )

const saveSaid = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(saidForm, typed),
    again: (typed, errors) => show(c, { said: { typed, errors } }, 422),
    keep: (value, typed) => keepSaid(c, value, typed),
  })

function keepSaid(
  c: PageContext,
  { basedOn, deferredTaxRate, unpaidLabor, replacement, due }: z.output<typeof saidForm>,
  typed: TypedForm,
) {
  const said: PackYear = {
    deferredTaxRate,
    unpaidLabourCents: unpaidLabor,
    replaceCents: replacement,
    dueWithinYear: Object.fromEntries(
      Object.entries(due).flatMap(([key, amount]) => (amount === null ? [] : [[key.slice(1), amount]])),
    ),
  }
  const year = yearAskedFor(c)
  const { books } = c.var.web
  const kept = () => moveOn(c, `/year-pack/inputs?year=${year}`, 'Kept for the year pack.')
  const act = actOf(c, newFormId())
  const done = settingOverClosed(c, typed, act, () => savePackYear(books, act, year, said, basedOn))
  if (asksOverClosed(done)) return done
  if (!done.ok) {
    const { saved, revision } = packYear(books, year)
    return showOverTheirs(c, {
      what: `the entries for the year pack ${year}`,
      typed,
      now: openingForm({ basedOn: String(revision), ...saidText(saved) }),
      subject: packSetting,
      theirs: `/year-pack/inputs?year=${year}`,
      alike: kept,
      words: saidWords(books),
    })
  }
  return kept()
}

/** What falls due within the year, by the loan’s name. */
const saidWords = (books: Books) => (name: string) => {
  const loan = /^due\.a(\d+)$/.exec(name)?.[1]
  return loan === undefined
    ? {}
    : { where: `due within twelve months of ${findAccount(books, Number(loan))?.name}` }
}

const saveMarket = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(marketForm, typed),
    again: (typed, errors) => show(c, { market: { typed, errors } }, 422),
    keep({ formId, market }, typed) {
      const year = yearAskedFor(c)
      const values = Object.entries(market).map(([key, amountCents]) => ({
        accountId: Number.parseInt(key.slice(1), 10),
        amountCents,
      }))
      const act = actOf(c, formId)
      const saved = overClosedYears(c, typed, act, () =>
        saveMarketValues(c.var.web.books, act, lastDayOfYear(year), values),
      )
      return saved.ok ? moveOn(c, `/year-pack/inputs?year=${year}`, 'Market values are kept.') : saved
    },
  })

const saveThings = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(thingsForm, typed),
    again: (typed, errors) => show(c, { things: { typed, errors } }, 422),
    keep({ formId, value }, typed) {
      const year = yearAskedFor(c)
      const values = Object.entries(value).map(([holdingId, amountCents]) => ({ holdingId, amountCents }))
      const act = actOf(c, formId)
      const saved = overClosedYears(c, typed, act, () =>
        saveHoldingValues(c.var.web.books, act, lastDayOfYear(year), values),
      )
      return saved.ok ? moveOn(c, `/year-pack/inputs?year=${year}#things`, 'These values are kept.') : saved
    },
  })

const addItem = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(itemForm, typed),
    again: (typed, errors) => show(c, { accrual: { typed, errors } }, 422),
    keep({ formId, at, side, kind, name, amount }, typed) {
      const { books } = c.var.web
      const year = yearAskedFor(c)
      if (!bookYears(books, year).some((one) => one.sideId === side))
        return refuse({ path: 'side', message: 'Choose the books' })
      const of = at === 'end' ? year : year - 1
      const act = actOf(c, formId)
      const added = overClosedYears(c, typed, act, () =>
        addAccrual(books, act, side, of, { kind, name, amountCents: amount }),
      )
      return added.ok
        ? moveOn(
            c,
            `/year-pack/inputs?year=${year}`,
            `“${name}” counts at the ${at === 'end' ? 'end' : 'beginning'} of ${year}.`,
          )
        : added
    },
  })

const removeItem = (c: PageContext) =>
  posted(c, {
    check: (typed) => checkForm(removeForm, typed),
    again: (typed, errors) => show(c, { accrual: { typed, errors } }, 422),
    keep({ formId, side }, typed) {
      const act = actOf(c, formId)
      const removed = overClosedYears(c, typed, act, () =>
        removeAccrual(c.var.web.books, act, side, c.req.param('id') ?? ''),
      )
      return removed.ok ? moveOn(c, `/year-pack/inputs?year=${yearAskedFor(c)}`, 'Removed.') : removed
    },
  })
