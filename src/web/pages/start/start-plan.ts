// What the first run writes into the plan: people, savings as the books hold them, and a month's costs.
import { z } from 'zod'
import { type Day, monthOfDay } from '#calendar/day.ts'
import { type Month, monthText } from '#calendar/month.ts'
import { addSide, listAccounts, listSides } from '#db/ledger/account-store.ts'
import { balanceOfAll, balancesOn } from '#db/ledger/balances.ts'
import { changeSide } from '#db/ledger/side-change.ts'
import { type Act, atomically } from '#db/once.ts'
import type { Books } from '#db/open.ts'
import { savePlan } from '#db/plan-store.ts'
import { type Account, farmSide, householdSide } from '#ledger/account.ts'
import { type FieldProblem, refuse } from '#ledger/problem.ts'
import { type Cents, centsToDollars } from '#money/cents.ts'
import type { Plan, PlanInput } from '#plan/plan.ts'
import { planVersion } from '#plan/plan.ts'
import { readPlan } from '#plan/upgrade.ts'
import { type CurrentPlan, currentPlan } from '#today/current-plan.ts'
import {
  choice,
  dayField,
  formIdField,
  moneyZeroOrMore,
  monthOrNull,
  requiredText,
  wholeNumber,
} from '#web/forms/fields.ts'
import type { TypedForm } from '#web/forms/form.ts'
import { personIds } from './person-ids.ts'

const person = z.object({ name: requiredText('Enter a name', 80), born: dayField() })

export const whoForm = z.object({
  formId: formIdField(),
  farmName: requiredText('Name the farm', 80),
  region: choice(['contiguous', 'alaska', 'hawaii'], 'Choose where you live'),
  people: z.array(person).min(1, { error: 'Enter at least one of you' }).max(2),
  children: z.array(person).max(12).default([]),
})

/** Rows in which nothing was typed are left out, except the first adult. */
export function withoutBlankPeople(typed: TypedForm): TypedForm {
  const filled = (list: string, keepFirst: boolean) => {
    const rows = Array.isArray(typed.nested[list]) ? (typed.nested[list] as Record<string, string>[]) : []
    return rows.filter(
      (row, index) => (keepFirst && index === 0) || `${row?.name ?? ''}${row?.born ?? ''}`.trim(),
    )
  }
  return {
    ...typed,
    nested: { ...typed.nested, people: filled('people', true), children: filled('children', false) },
  }
}

/** Makes the books of house and farm on the first time, and the plan's people each time. */
export function saveWho(books: Books, act: Act, form: z.output<typeof whoForm>, today: Day): FieldProblem[] {
  const saved = atomically(books, () => {
    const named = nameBooks(books, act, form.farmName)
    if (named.length > 0) return refuse(...named)
    const withId = personIds([...form.people, ...form.children].map((one) => one.name))
    return changePlan(
      books,
      act,
      { startMonth: monthText(monthOfDay(today)), note: 'Who', asked: form },
      (plan) => ({
        ...plan,
        household: {
          ...plan.household,
          people: form.people.map((one) =>
            keepFields(plan.household?.people, withId(plan.household?.people ?? [], one)),
          ),
          dependants: form.children.map((one) =>
            keepFields(plan.household?.dependants, withId(plan.household?.dependants ?? [], one)),
          ),
        },
        tax: { ...plan.tax, region: form.region },
      }),
    )
  })
  return saved.ok ? [] : saved.problems
}

/** The books of house and farm, made the first time; a farm's new name afterwards. */
const nameBooks = (books: Books, act: Act, farmName: string): FieldProblem[] => {
  const step = (name: string): Act => ({ ...act, formId: `${act.formId}.${name}` })
  const outcomes =
    listSides(books).length === 0
      ? [
          addSide(books, step('farm'), { kind: 'farm', name: farmName }),
          addSide(books, step('house'), { kind: 'household', name: 'Household' }),
        ]
      : [changeSide(books, step('farm-name'), farmSide, { name: farmName })]
  return outcomes.flatMap((one) =>
    one.ok ? [] : one.problems.map(({ message }) => ({ path: 'farmName', message })),
  )
}

/** Someone the plan knows already keeps what else it knows of them. */
const keepFields = <Known extends { id: string }>(
  known: readonly Known[] | undefined,
  one: { id: string; name: string; born: string },
): Known & { id: string; name: string; born: string } => ({
  ...(known?.find((other) => other.id === one.id) as Known),
  ...one,
})

/** The plan's savings and farm cash are those of the books on the first day. */
export function saveSavings(books: Books, act: Act, start: Month): void {
  const balances = balancesOn(books)
  const accounts = listAccounts(books)
  const sum = (wanted: (account: Account) => boolean) =>
    centsToDollars(balanceOfAll(balances, accounts.filter(wanted)))
  const home = (account: Account) => account.sideId === householdSide
  const taxable = sum((one) => home(one) && one.savingsKind === 'taxable' && one.cashRole === 'spendable')
  const mixed = { stocks: 0.6, bonds: 0.4, bills: 0 }
  const account = (id: string, name: string, kind: 'taxable' | 'traditional' | 'roth', balance: number) =>
    balance > 0 ? [{ id, name, kind, balance, mix: mixed }] : []
  const done = changePlan(
    books,
    act,
    { startMonth: monthText(start), note: 'Savings', asked: start },
    (plan) => ({
      ...plan,
      startMonth: monthText(start),
      savings: {
        ...plan.savings,
        accounts: [
          {
            id: 'cash',
            name: 'Cash and savings',
            kind: 'cash' as const,
            balance: Math.max(0, sum((one) => home(one) && one.cashRole === 'spendable') - taxable),
          },
          ...account('taxable', 'Taxable investments', 'taxable', taxable),
          ...account(
            'traditional',
            'Retirement, traditional',
            'traditional',
            sum((one) => home(one) && one.savingsKind === 'traditional'),
          ),
          ...account(
            'roth',
            'Retirement, Roth',
            'roth',
            sum((one) => home(one) && one.savingsKind === 'roth'),
          ),
        ],
      },
      farm: { ...plan.farm, cash: sum((one) => one.sideId === farmSide && one.cashRole === 'cash') },
    }),
  )
  if (!done.ok) throw new Error(`The plan did not take the savings: ${done.problems[0]?.message}`)
}

export const costsForm = z
  .object({
    formId: formIdField(),
    living: moneyZeroOrMore(),
    premium: moneyZeroOrMore(),
    floorMonths: wholeNumber(0, 120),
    farmSales: moneyZeroOrMore(),
    farmCosts: moneyZeroOrMore(),
    farmReserve: moneyZeroOrMore(),
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
  const current = currentPlan(books)
  if (current.status === 'read' && hasOutgrownFirstFigures(current.plan)) {
    return [
      {
        path: '',
        message:
          'The plan has more in it by now than these first figures. Change it on Runway and Farm, so that nothing of it is lost.',
      },
    ]
  }
  const dollars = (amount: Cents) => centsToDollars(amount)
  const step = { startMonth: monthText(monthOfDay(today)), note: 'Monthly costs', asked: form }
  const saved = changePlan(books, act, step, (plan) => ({
    ...plan,
    household: {
      ...plan.household,
      living: [{ id: 'living', name: 'Living', perMonth: dollars(form.living) }],
      floor: { kind: 'months' as const, months: form.floorMonths },
    },
    health: {
      ...plan.health,
      premiums:
        form.premium > 0 ? [{ id: 'premium', name: 'Health premium', perMonth: dollars(form.premium) }] : [],
    },
    farm: {
      ...plan.farm,
      reserve: Math.max(0, dollars(form.farmReserve)),
      enterprises:
        form.farmSales === 0 && form.farmCosts === 0
          ? []
          : [
              {
                id: wholeFarm,
                name: 'The farm as it is',
                salesPerUnit: dollars(form.farmSales),
                costsPerUnit: dollars(form.farmCosts),
              },
            ],
    },
    draw: {
      policy: 'steps' as const,
      steps: [
        { from: plan.startMonth, perMonth: dollars(form.drawNow) },
        ...(form.drawLaterFrom === null
          ? []
          : [{ from: monthText(form.drawLaterFrom), perMonth: dollars(form.drawLater) }]),
      ],
    },
  }))
  return saved.ok ? [] : saved.problems
}

/** Lines that the last step knows nothing of and would write over. */
const hasOutgrownFirstFigures = ({ household, health, farm, draw }: Plan): boolean =>
  household.living.some((line) => line.id !== 'living') ||
  health.premiums.some((line) => line.id !== 'premium') ||
  farm.enterprises.some((one) => one.id !== wholeFarm) ||
  draw.policy !== 'steps' ||
  draw.steps.length > 2

const wholeFarm = 'whole-farm'

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
  }
}

const firstPlanId = 'our-plan'

/** Reads the newest revision, or begins the first plan, changes it, checks the whole and saves it as the next one. */
function changePlan(
  books: Books,
  act: Act,
  { startMonth, note, asked }: { startMonth: string; note: string; asked: unknown },
  change: (plan: PlanInput) => PlanInput,
): { ok: true } | ReturnType<typeof refuse> {
  const current = currentPlan(books)
  if (current.status === 'unreadable') {
    return refuse({ path: '', message: `The plan cannot be read: ${current.faults[0]?.message}` })
  }
  const before: PlanInput = current.status === 'read' ? current.plan : { planVersion, startMonth }
  const read = readPlan(change(before))
  if (!read.ok) return refuse(...read.faults.map((fault) => ({ path: '', message: fault.message })))
  const saved = savePlan(books, act, {
    planId: current.status === 'read' ? current.planId : firstPlanId,
    basedOn: current.status === 'read' ? current.revisionNo : 0,
    ...(current.status === 'read' ? {} : { name: read.plan.name }),
    schemaVersion: planVersion,
    document: read.plan,
    note,
    asked,
  })
  if (saved.ok) return { ok: true }
  return saved.kind === 'newer-revision'
    ? refuse({ path: '', message: 'The plan was changed at another screen. Open this step again.' })
    : saved
}
