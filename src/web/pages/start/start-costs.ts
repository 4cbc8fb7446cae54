// The last step of the first run, into the plan: a month's costs, the farm as one line, and draws.
import { z } from 'zod'
import { type Day, monthOfDay } from '#calendar/day.ts'
import { addMonths, type Month, monthText } from '#calendar/month.ts'
import type { Act } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import type { FieldProblem } from '#ledger/problem.ts'
import { centsToDollars } from '#money/cents.ts'
import { paysMarketplace } from '#plan/counted-twice.ts'
import type { Plan, PlanInput } from '#plan/plan.ts'
import { ownLines, wholeFarm } from '#plan/whole-farm.ts'
import { medicareStart } from '#rules/age-by-law.ts'
import { type CurrentPlan, currentPlan } from '#today/current-plan.ts'
import {
  formIdField,
  moneyZeroOrMore,
  monthOrNull,
  optionalText,
  percentOrNull,
  wholeNumber,
} from '#web/forms/fields.ts'
import { changePlan } from './start-plan.ts'

const payRow = z
  .object({
    person: z.string(),
    // Empty stays as the plan has it.
    kind: z.enum(['', 'wages', 'pension', 'fixedPension'], { error: 'Choose what it is' }).default(''),
    perMonth: moneyZeroOrMore(),
    until: monthOrNull(),
    withheld: percentOrNull().refine((share) => share === null || (share >= 0 && share <= 1), {
      error: 'Enter a share of the pay, like 12%',
    }),
  })
  .refine(({ perMonth, until }) => perMonth > 0 || until === null, {
    error: 'Enter what is paid a month, or leave the month empty',
    path: ['perMonth'],
  })

export const costsForm = z
  .object({
    formId: formIdField(),
    pay: z.array(payRow).max(2).default([]),
    living: moneyZeroOrMore(),
    premium: moneyZeroOrMore(),
    floorMonths: wholeNumber(0, 120),
    farmSales: moneyZeroOrMore(),
    farmCosts: moneyZeroOrMore(),
    farmReserve: moneyZeroOrMore(),
    sells: optionalText(60),
    drawNow: moneyZeroOrMore(),
    drawLater: moneyZeroOrMore(),
    drawLaterFrom: monthOrNull(),
  })
  .refine((form) => form.living > 0, { error: 'Enter what a month of living costs', path: ['living'] })
  .refine((form) => form.drawLater === 0 || form.drawLaterFrom !== null, {
    error: 'Enter the month from which the later draw runs, like 2028-01',
    path: ['drawLaterFrom'],
  })

export function saveCosts(
  books: Books,
  act: Act,
  form: z.output<typeof costsForm>,
  today: Day,
): FieldProblem[] {
  const fault = faultOf(currentPlan(books), form)
  if (fault !== null) return [fault]
  const step = {
    startMonth: monthText(monthOfDay(today)),
    note: 'Monthly costs',
    asked: form,
    fieldOf: (path: string) => (path === 'draw.steps.1.from' ? 'drawLaterFrom' : null),
  }
  const saved = changePlan(books, act, step, (plan) => withCosts(plan, form))
  return saved.ok ? [] : saved.problems
}

/** First figures are not written over a plan that has more in it, nor a premium beside a marketplace plan. */
const faultOf = (current: CurrentPlan, form: z.output<typeof costsForm>): FieldProblem | null => {
  if (current.status !== 'read') return null
  if (hasOutgrownFirstFigures(current.plan))
    return {
      path: '',
      message:
        'The plan has more in it by now than these first figures. Change it on Runway and Farm, so that nothing of it is lost.',
    }
  if (form.premium > 0 && paysMarketplace(current.plan))
    return {
      path: 'premium',
      message:
        'The plan pays a marketplace plan already, entered on Health. Leave this empty, so that it is not counted twice',
    }
  return null
}

const withCosts = (plan: PlanInput, form: z.output<typeof costsForm>): PlanInput => ({
  ...plan,
  household: {
    ...plan.household,
    living: [{ id: 'living', name: 'Living', perMonth: centsToDollars(form.living) }],
    floor: { kind: 'months' as const, months: form.floorMonths },
    pay: payLines(plan, form.pay),
  },
  health: {
    ...plan.health,
    premiums:
      form.premium > 0
        ? [
            {
              ...plan.health?.premiums?.find(({ id }) => id === 'premium'),
              id: 'premium',
              name: 'Health premium',
              perMonth: centsToDollars(form.premium),
              ...untilMedicare(plan),
            },
          ]
        : [],
  },
  farm: {
    ...plan.farm,
    reserve: Math.max(0, centsToDollars(form.farmReserve)),
    enterprises:
      form.farmSales === 0 && form.farmCosts === 0
        ? []
        : [
            {
              id: wholeFarm,
              name: 'The farm as it is',
              salesPerUnit: centsToDollars(form.farmSales),
              costsPerUnit: centsToDollars(form.farmCosts),
            },
          ],
  },
  draw: {
    policy: 'steps' as const,
    steps: [
      { from: plan.startMonth, perMonth: centsToDollars(form.drawNow) },
      ...(form.drawLaterFrom === null
        ? []
        : [{ from: monthText(form.drawLaterFrom), perMonth: centsToDollars(form.drawLater) }]),
    ],
  },
})

/** The last of them to reach Medicare leaves the plan that is paid now; nobody on it, as far as is known, is younger. */
const untilMedicare = ({ household, startMonth }: PlanInput): { to?: string } => {
  const starts = (household?.people ?? []).map(({ born }) => medicareStart(born))
  const last = monthText(addMonths(Math.max(...starts) as Month, -1))
  return starts.length > 0 && last >= startMonth ? { to: last } : {}
}

/** Lines of pay, each keeping what else the plan knows of it. */
const payLines = (plan: PlanInput, rows: readonly z.output<typeof payRow>[]) =>
  rows.flatMap(({ person, kind: said, perMonth, until, withheld }) => {
    if (perMonth === 0) return []
    const before = plan.household?.pay?.find(({ id }) => id === payOf(person))
    const kind = said === '' ? (before?.kind ?? 'wages') : said
    return [
      {
        ...before,
        id: payOf(person),
        kind,
        name: kind === 'wages' ? 'Off-farm pay' : 'Pension',
        person,
        perMonth: centsToDollars(perMonth),
        to: until === null ? undefined : monthText(until),
        withheldShare: withheld ?? 0,
      },
    ]
  })

/** The one line of pay that the step makes for each of them. */
const payOf = (person: string): string => `${person.slice(0, 36)}-pay`

/** Lines that the last step knows nothing of and would write over. */
const hasOutgrownFirstFigures = (plan: Plan): boolean => {
  const { household, health, draw } = plan
  return (
    household.living.some((line) => line.id !== 'living') ||
    household.pay.some((line) => line.id !== payOf(line.person)) ||
    health.premiums.some((line) => line.id !== 'premium') ||
    ownLines(plan).length > 0 ||
    draw.policy !== 'steps' ||
    draw.steps.length > 2
  )
}

/** What the plan holds already, to open the last step with. */
export function openingCosts(current: CurrentPlan): Record<string, string> {
  if (current.status !== 'read') return { floorMonths: '6' }
  const { household, health, farm, draw } = current.plan
  const text = (dollars: number | undefined) => (dollars ? dollars.toFixed(2) : '')
  const whole = farm.enterprises.find((one) => one.id === wholeFarm)
  const steps = draw.policy === 'steps' ? draw.steps : []
  const yearly = (value: unknown) => (typeof value === 'number' ? value : undefined)
  return {
    living: text(household.living.find((line) => line.id === 'living')?.perMonth),
    premium: text(health.premiums.find((line) => line.id === 'premium')?.perMonth),
    floorMonths: String(household.floor.kind === 'months' ? household.floor.months : 6),
    farmSales: text(yearly(whole?.salesPerUnit)),
    farmCosts: text(yearly(whole?.costsPerUnit)),
    farmReserve: text(farm.reserve),
    drawNow: text(steps[0]?.perMonth),
    drawLater: text(steps[1]?.perMonth),
    drawLaterFrom: steps[1]?.from ?? '',
    ...Object.fromEntries(
      household.people.flatMap(({ id }, row) => {
        const pay = household.pay.find((line) => line.id === payOf(id))
        const withheld = pay?.withheldShare ? String(Math.round(pay.withheldShare * 1e4) / 100) : ''
        return [
          [`pay.${row}.person`, id],
          [`pay.${row}.kind`, pay?.kind ?? 'wages'],
          [`pay.${row}.perMonth`, text(pay?.perMonth)],
          [`pay.${row}.until`, pay?.to ?? ''],
          [`pay.${row}.withheld`, withheld],
        ]
      }),
    ),
  }
}
