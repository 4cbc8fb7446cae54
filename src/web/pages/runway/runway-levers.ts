// The levers of the Runway page, each told once: name, label, bounds, what the plan says, and the plan with it pulled. They are
// sent by GET, so that every setting has an address of its own.
import { z } from 'zod'
import { type Month, monthNameShort, parseMonth } from '#calendar/month.ts'
import { keptWith } from '#kept/keeper.ts'
import { centsToDollars } from '#money/cents.ts'
import { drawsAreToCome, drawsLater } from '#plan/draw-plan.ts'
import { firstMonthOf } from '#plan/first-month.ts'
import type { Plan } from '#plan/plan.ts'
import type { LeverShown } from '#views/runway/levers.tsx'
import { money, percent, wholeNumber } from '#web/forms/fields.ts'
import { checkForm, type FormErrors, type TypedForm } from '#web/forms/form.ts'

interface Lever extends Omit<LeverShown, 'text'> {
  least: number
  most: number
  /** As the plan has it. */
  own: string
  pull(plan: Plan, value: number): Plan
}

/** In the order in which they are pulled: the steps of a draw before what scales or puts off all of them. */
const leversOf = (plan: Plan, begun: Month): Lever[] => [
  ...stepLevers(plan),
  {
    group: 'Main',
    name: 'draws',
    kind: 'percent',
    least: 0,
    most: 5,
    own: '100',
    label: 'Draws, percent of the plan',
    ...hinted(
      plan.draw.policy === 'sweep' &&
        'The plan draws all that the farm can spare, up to household costs: a percentage moves nothing',
    ),
    pull: scaleDraws,
  },
  {
    group: 'Main',
    name: 'late',
    kind: 'months',
    least: 0,
    most: 240,
    own: '0',
    label: 'Draws later by, months',
    ...hinted(
      !drawsAreToCome(plan.draw, begun) && 'No draw of the plan is still to come: this moves nothing',
    ),
    pull: (one, months) => ({ ...one, draw: drawsLater(one.draw, months, begun) }),
  },
  {
    group: 'Main',
    name: 'living',
    kind: 'percent',
    least: 0.1,
    most: 3,
    own: '100',
    label: 'Living costs, percent of the plan',
    pull: scaleLiving,
  },
  returnLever(plan, 'stocks', 'Stocks, percent a year', 'Main'),
  rateLever(plan, more, 'inflation', 'Prices rise, percent a year', -0.1, 0.3),
  rateLever(plan, more, 'premiumGrowth', 'Premiums rise, percent a year', -0.2, 0.5),
  rateLever(plan, more, 'farmPriceGrowth', 'Farm prices beyond other prices, percent a year', -0.2, 0.2),
  returnLever(plan, 'bonds', 'Bonds, percent a year'),
  returnLever(plan, 'bills', 'Savings accounts, percent a year'),
]

const more = 'Prices, premiums and returns'

const hinted = (hint: string | false): Pick<Lever, 'hint'> => (hint === false ? {} : { hint })

const stepLevers = ({ draw }: Plan): Lever[] =>
  (draw.policy === 'steps' ? draw.steps : []).map((step, place) => ({
    group: 'Each step of the draws',
    name: `steps.${place}`,
    kind: 'money',
    least: 0,
    most: 9_999_999,
    label: monthNameShort(parseMonth(step.from)!),
    own: String(Math.round(step.perMonth * 100) / 100),
    pull: (plan, perMonth) => withSteps(plan, (one, at) => (at === place ? { ...one, perMonth } : one)),
  }))

type Rate = 'inflation' | 'premiumGrowth' | 'farmPriceGrowth' | 'stocks' | 'bonds' | 'bills'

const rateLever = (
  { assumptions }: Plan,
  group: LeverShown['group'],
  name: Rate,
  label: string,
  least: number,
  most: number,
): Lever => ({
  group,
  name,
  label,
  kind: 'percent',
  least,
  most,
  own: String(Math.round(assumptions[name] * 1e6) / 1e4),
  pull: (plan, rate) => ({ ...plan, assumptions: { ...plan.assumptions, [name]: rate } }),
})

/** What accounts of such a kind earn. Where none of the plan's accounts holds any, it is said that the lever moves nothing. */
const returnLever = (
  plan: Plan,
  name: 'stocks' | 'bonds' | 'bills',
  label: string,
  group: LeverShown['group'] = more,
): Lever => ({
  ...rateLever(plan, group, name, label, -0.5, 0.5),
  ...hinted(
    !plan.savings.accounts.some(({ mix }) => mix[name] > 0) &&
      'No account of the plan earns this: give one a share of it under Savings, in its mix',
  ),
})

const scaleLiving = (plan: Plan, part: number): Plan => ({
  ...plan,
  household: {
    ...plan.household,
    living: plan.household.living.map((line) => ({ ...line, perMonth: line.perMonth * part })),
  },
})

function scaleDraws(plan: Plan, part: number): Plan {
  const { draw } = plan
  const share = (of: number) => Math.min(1, of * part)
  if (draw.policy === 'steps') return withSteps(plan, (step) => ({ ...step, perMonth: step.perMonth * part }))
  if (draw.policy === 'ramp')
    return { ...plan, draw: { ...draw, fromShare: share(draw.fromShare), toShare: share(draw.toShare) } }
  return draw.policy === 'share' ? { ...plan, draw: { ...draw, share: share(draw.share) } } : plan
}

type Step = Extract<Plan['draw'], { policy: 'steps' }>['steps'][number]

const withSteps = (plan: Plan, change: (step: Step, place: number) => Step): Plan =>
  plan.draw.policy === 'steps'
    ? { ...plan, draw: { ...plan.draw, steps: plan.draw.steps.map(change) } }
    : plan

/** What may be typed at each kind. */
const kinds: Record<LeverShown['kind'], (lever: Lever) => z.ZodType<number>> = {
  money: ({ least, most }) =>
    money()
      .transform(centsToDollars)
      .refine((value) => value >= least && value <= most, {
        error: `Enter an amount from ${least} to ${most}`,
      }),
  percent: ({ least, most }) =>
    percent().refine((value) => value >= least && value <= most, {
      error: `Enter between ${least * 100} and ${most * 100} percent`,
    }),
  months: ({ least, most }) => wholeNumber(least, most),
}

export interface ReadLevers {
  /** With the texts to show: what was sent, and the plan's own where nothing was. */
  levers: readonly LeverShown[]
  errors: FormErrors
  /** True when they say what the plan says. */
  areUntouched: boolean
  /** The plan with them pulled; one that still shows the plan's own text leaves its figure with all its digits. */
  pull(): Plan
}

/** `begun`: the month of today; draws from then or before go on whatever is put off. */
export function readLevers(plan: Plan, typed: TypedForm, begun: Month = firstMonthOf(plan)): ReadLevers {
  const { all, form } = keptWith(plan, `levers of ${begun}`, () => formOf(plan, begun))
  const levers = all.map((lever) => ({
    ...lever,
    text: typed.values(lever.name).length > 0 ? typed.value(lever.name) : lever.own,
  }))
  const checked = checkForm(form, { ...typed, nested: textsOf(levers) })
  const touched = levers.filter(({ text, own }) => text !== own)
  return {
    levers: levers.map(({ group, name, label, kind, text, hint }) => ({
      group,
      name,
      label,
      kind,
      text,
      ...(hint === undefined ? {} : { hint }),
    })),
    errors: checked.ok ? {} : checked.errors,
    areUntouched: touched.length === 0,
    pull: () =>
      checked.ok
        ? touched.reduce((pulled, { name, pull }) => pull(pulled, checked.value[name]!), plan)
        : plan,
  }
}

/** A schema is slow to make and to read with for the first time. */
const formOf = (plan: Plan, begun: Month) => {
  const all = leversOf(plan, begun)
  return {
    all,
    form: z.object(Object.fromEntries(all.map((lever) => [lever.name, kinds[lever.kind](lever)]))),
  }
}

/** Where the farm gives beyond the planned draws what holds the floor, months left hang on what it can spare and not on their level; a lever that moves nothing says that already. */
export const hasCalled = (levers: readonly LeverShown[], isCalledOn: boolean): boolean =>
  isCalledOn && levers.some(({ name, hint }) => drawLevers.has(name) && hint === undefined)

const drawLevers = new Set(['draws', 'late'])

export const textsOf = (levers: readonly LeverShown[]): Record<string, string> =>
  Object.fromEntries(levers.map(({ name, text }) => [name, text]))
