// How sure: starts a chance run of the current plan, shows it as it goes, stops it, and shows what it came to.
import { Hono } from 'hono'
import { z } from 'zod'
import { type Month, monthText } from '#calendar/month.ts'
import { Chance, ChancePage } from '#views/chance/chance.tsx'
import type { ChanceFigures, ChanceOutcomeFigures, ChanceRunFigures } from '#views/chance/figures.ts'
import { answer, moveOn, type PageContext } from '#web/forms/answer.tsx'
import { type CsvTable, tableOf } from '#web/forms/csv.ts'
import { choice, wholeNumber } from '#web/forms/fields.ts'
import { checkForm, type FormErrors, readForm, statusOf } from '#web/forms/form.ts'
import type { PageRoom } from '#web/forms/page-room.ts'
import { dollarsOf } from '#web/forms/shown-dollars.ts'
import { type ProjectedPlan, projected, withPlan } from '#web/forms/with-plan.tsx'
import type { PageEnv } from '#web/server/context.ts'
import { chanceFigures, figuresOf, fromTyped } from './chance-figures.ts'
import { refusalOf, startChance, stopChance } from './chance-run.ts'

export const chancePages: PageRoom = {
  build: () =>
    new Hono<PageEnv>()
      .get('/runway/chance', (c) => withPlan(c, (current) => showChance(c, projected(current))))
      .post('/runway/chance', async (c) => {
        const typed = await readForm(c)
        return withPlan(c, (current) => askChance(c, projected(current), typed))
      })
      .post('/runway/chance/stop', async (c) => {
        const typed = await readForm(c)
        stopChance(typed.value('job'))
        return moveOn(c, `/runway/chance?job=${encodeURIComponent(typed.value('job'))}`)
      }),
}

const runForm = z.object({
  paths: wholeNumber(50, 20_000),
  seed: wholeNumber(0, 999_999_999),
  from: choice(['chance', 'history'], 'Choose chance or history'),
})

function askChance(c: PageContext, current: ProjectedPlan, typed: Awaited<ReturnType<typeof readForm>>) {
  const checked = checkForm(runForm, typed)
  const choices = {
    paths: typed.value('paths'),
    seed: typed.value('seed'),
    from: fromTyped(typed.value('from')),
  }
  if (!checked.ok) return show(c, figuresOf(c, current, choices, undefined), checked.errors)
  const refusal = refusalOf(current.plan, checked.value)
  if (refusal !== null) return show(c, figuresOf(c, current, choices, undefined), { from: refusal })
  const job = startChance(current, checked.value, c.var.web)
  if (c.req.header('HX-Request') === 'true')
    return show(c, figuresOf(c, current, choices, { job, before: null }), {})
  return moveOn(c, `/runway/chance?job=${job.id}`)
}

const showChance = (c: PageContext, current: ProjectedPlan) => show(c, chanceFigures(c, current), {})

function show(c: PageContext, figures: ChanceFigures, errors: FormErrors) {
  const { run } = figures
  return answer(c, {
    title: 'How sure',
    dollars: dollarsOf(c),
    status: statusOf(errors),
    figures: { ...figures, run: run.status === 'done' ? outcomeJson(run) : run },
    page: () => <ChancePage figures={figures} errors={errors} />,
    parts: {
      chance: () => <Chance figures={figures} errors={errors} />,
      'chance-brief': () => <Chance figures={figures} errors={errors} place="chance-brief" />,
    },
    // A table says nothing beside its rows: none of the plan as it was.
    ...(run.status === 'done' && figures.before === null
      ? { tables: { bands: () => bandsCsv(run), years: () => yearsCsv(run) } }
      : {}),
  })
}

/** Months as text; what never happens is null, as JSON has no infinity. */
const outcomeJson = (run: Extract<ChanceRunFigures, { status: 'done' }>) => ({
  ...run,
  firstMonth: monthText(run.firstMonth as Month),
  bands: run.bands.map((band) => ({ ...band, month: monthText(band.month as Month) })),
})

const bandsCsv = ({ bands, expected, firstMonth }: ChanceOutcomeFigures): CsvTable =>
  tableOf(bands, {
    month: (band) => monthText(band.month as Month),
    '10th percentile': (band) => band.p10.toFixed(2),
    middle: (band) => band.p50.toFixed(2),
    '90th percentile': (band) => band.p90.toFixed(2),
    'as planned': (band) => expected[band.month - firstMonth]?.toFixed(2) ?? '',
    'runs still going': (band) => band.running,
  })

const yearsCsv = ({ outcome: { carryYears, floorYears } }: ChanceOutcomeFigures): CsvTable => {
  const years = carryYears.counts.map((carries, place) => ({
    year: String(carryYears.firstYear + place),
    carries,
    crosses: floorYears.counts[place] ?? 0,
  }))
  const never = { year: 'never', carries: carryYears.never, crosses: floorYears.never }
  return tableOf([...years, never], {
    year: (one) => one.year,
    'farm carries from': (one) => one.carries,
    'floor crossed in': (one) => one.crosses,
  })
}
