// The levers of the Runway page: a handful of the plan's figures, sent by GET so that every setting has an address of its own.
import { z } from 'zod'
import { addMonths, monthText, parseMonth } from '#calendar/month.ts'
import type { Plan } from '#plan/plan.ts'
import type { LeverTexts } from '#today/runway/figures.ts'
import { percent, wholeNumber } from '#web/forms/fields.ts'
import type { TypedForm } from '#web/forms/form.ts'

const rateNames = ['inflation', 'premiumGrowth', 'farmPriceGrowth', 'stocks', 'bonds', 'bills'] as const
type RateName = (typeof rateNames)[number]

const within = (least: number, most: number) =>
  percent().refine((value) => value >= least && value <= most, {
    error: `Enter between ${least * 100} and ${most * 100} percent`,
  })

const dollarsTyped = z
  .string()
  .optional()
  .transform((text) => (text ?? '').replaceAll(/[$,\s]/g, ''))
  .pipe(
    z
      .string()
      .regex(/^\d{1,7}(\.\d{0,2})?$/, { error: 'Enter an amount, like 2400' })
      .transform((text) => Number.parseFloat(text)),
  )

/** What the levers may be. Steps are the plan's own steps in order; other draw policies have a factor. */
export const leverForm = z.object({
  steps: z.array(dollarsTyped).default([]),
  draws: within(0, 5),
  late: wholeNumber(0, 240),
  living: within(0.1, 3),
  inflation: within(-0.1, 0.3),
  premiumGrowth: within(-0.2, 0.5),
  farmPriceGrowth: within(-0.2, 0.2),
  stocks: within(-0.5, 0.5),
  bonds: within(-0.5, 0.5),
  bills: within(-0.5, 0.5),
})
export type Levers = z.output<typeof leverForm>

const inCents = (dollars: number): string => String(Math.round(dollars * 100) / 100)
const asPercent = (fraction: number): string => String(Math.round(fraction * 1e6) / 1e4)

/** The levers as they stand in the plan. */
const leversOf = (plan: Plan): LeverTexts => ({
  steps:
    plan.draw.policy === 'steps'
      ? plan.draw.steps.map((step) => ({ from: step.from, text: inCents(step.perMonth) }))
      : [],
  draws: '100',
  late: '0',
  living: '100',
  ...(Object.fromEntries(rateNames.map((name) => [name, asPercent(plan.assumptions[name])])) as Record<
    RateName,
    string
  >),
})

/** The texts to show: what was sent, and the plan's where nothing was. */
export const shownLevers = (plan: Plan, typed: TypedForm): LeverTexts => {
  const own = leversOf(plan)
  const shown = (name: string, text: string) => (typed.values(name).length > 0 ? typed.value(name) : text)
  return {
    ...own,
    steps: own.steps.map((step, place) => ({ ...step, text: shown(`steps.${place}`, step.text) })),
    draws: shown('draws', own.draws),
    late: shown('late', own.late),
    living: shown('living', own.living),
    inflation: shown('inflation', own.inflation),
    premiumGrowth: shown('premiumGrowth', own.premiumGrowth),
    farmPriceGrowth: shown('farmPriceGrowth', own.farmPriceGrowth),
    stocks: shown('stocks', own.stocks),
    bonds: shown('bonds', own.bonds),
    bills: shown('bills', own.bills),
  }
}

/** The shown texts as a form to check. */
export const leverFields = (texts: LeverTexts): Record<string, unknown> => ({
  ...texts,
  steps: texts.steps.map((step) => step.text),
})

/** True when the levers say what the plan says. */
export const areUntouched = (plan: Plan, texts: LeverTexts): boolean =>
  JSON.stringify(texts) === JSON.stringify(leversOf(plan))

/** The plan with the levers pulled. One that still shows the plan's own text leaves the plan's figure with all its digits. */
export const pullLevers = (plan: Plan, pulled: Levers, texts: LeverTexts): Plan => {
  const own = leversOf(plan)
  const rates = Object.fromEntries(
    rateNames.map((name) => [name, texts[name] === own[name] ? plan.assumptions[name] : pulled[name]]),
  ) as Record<RateName, number>
  const steps =
    plan.draw.policy !== 'steps'
      ? []
      : plan.draw.steps.map(({ perMonth }, place) =>
          texts.steps[place]?.text === own.steps[place]!.text ? perMonth : (pulled.steps[place] ?? perMonth),
        )
  const levers = { ...pulled, steps }
  return {
    ...plan,
    assumptions: { ...plan.assumptions, ...rates },
    household: {
      ...plan.household,
      living: plan.household.living.map((line) => ({ ...line, perMonth: line.perMonth * levers.living })),
    },
    draw: pullDraw(plan, levers),
  }
}

const pullDraw = (plan: Plan, levers: Levers): Plan['draw'] => {
  const { draw } = plan
  const later = (text: string) => monthText(addMonths(parseMonth(text)!, levers.late))
  const share = (part: number) => Math.min(1, part * levers.draws)
  if (draw.policy === 'steps')
    return {
      ...draw,
      steps: draw.steps.map((step, place) => ({
        from: step.from <= plan.startMonth ? step.from : later(step.from),
        perMonth: (levers.steps[place] ?? step.perMonth) * levers.draws,
      })),
    }
  if (draw.policy === 'ramp')
    return {
      ...draw,
      from: later(draw.from),
      to: later(draw.to),
      fromShare: share(draw.fromShare),
      toShare: share(draw.toShare),
    }
  if (draw.policy === 'share') return { ...draw, from: later(draw.from), share: share(draw.share) }
  return { ...draw, from: later(draw.from) }
}
