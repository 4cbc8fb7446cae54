// Opens one month of a projection into what made it: every line of the plan that counts in it, at that month's prices.
import type { Month } from '#calendar/month.ts'
import { farmCourse } from '#farm/course.ts'
import type { Plan } from '#plan/plan.ts'
import { planSpan } from '#runway/compile/compile.ts'
import { compileHousehold } from '#runway/compile/compile-household.ts'
import type { ProjectedMonth, Projection } from './project.ts'
import { grownBeyond, type Span } from './span.ts'
import { calmWeather } from './weather.ts'

export interface TraceLine {
  name: string
  dollars: number
  says?: string
}

export interface TraceGroup {
  title: string
  total: number
  lines: TraceLine[]
}

/** Groups of lines for a month given as text; null when the course has no such month. Each group's lines add up to its total. */
export const traceMonth = (plan: Plan, projection: Projection, text: string): TraceGroup[] | null => {
  const place = projection.months.findIndex((month) => month.month === text)
  if (place < 0) return null
  const month = projection.months[place]!
  const before = projection.months[place - 1]
  const span = planSpan(plan)
  return [
    farmGroup(plan, span, place, month),
    drawGroup(month),
    livingGroup(plan, span, place, month),
    healthGroup(month),
    incomeGroup(month),
    savingsGroup(plan, month, before),
    spendableGroup(month),
  ].filter((group) => group.lines.length > 0)
}

const group = (title: string, total: number, lines: TraceLine[]): TraceGroup => {
  const shown = lines.filter((line) => Math.abs(line.dollars) >= 0.005)
  const rest = total - shown.reduce((sum, line) => sum + line.dollars, 0)
  return {
    title,
    total,
    lines:
      Math.abs(rest) >= 0.01 && shown.length > 0
        ? [...shown, { name: 'Everything else', dollars: rest }]
        : shown,
  }
}

const farmGroup = (plan: Plan, span: Span, place: number, month: ProjectedMonth): TraceGroup => {
  const course = farmCourse(plan.farm, span.firstMonth as Month, span.months)
  const prices = month.level * grownBeyond(span, place, plan.assumptions.farmPriceGrowth)
  const costs = month.level * grownBeyond(span, place, plan.assumptions.farmCostGrowth)
  const at = (table: Float64Array, row: number) => table[row * span.months + place] ?? 0
  const lines: TraceLine[] = course.rows.flatMap((row, index) => [
    { name: `${row.name}: sales`, dollars: at(course.sales, index) * prices },
    { name: `${row.name}: direct costs`, dollars: -at(course.directCosts, index) * costs },
  ])
  lines.push({ name: 'Markets: fees and miles', dollars: -at(course.marketCosts, 0) * costs })
  lines.push({ name: 'Overheads', dollars: -at(course.overheads, 0) * costs })
  lines.push({ name: 'Breeding stock and land', dollars: month.farmStock })
  lines.push({ name: 'Loans', dollars: month.farmLoans })
  lines.push({ name: 'Purchases', dollars: -month.farmPurchases })
  lines.push({ name: 'What earlier purchases bring in', dollars: month.farmPurchaseGains })
  lines.push({ name: 'From the household', dollars: month.contribution })
  lines.push({ name: 'Draw', dollars: -month.draw })
  const total =
    month.farmSales -
    month.farmCosts +
    month.farmStock +
    month.farmLoans -
    month.farmPurchases +
    month.farmPurchaseGains +
    month.contribution -
    month.draw
  return group('Change of farm cash', total, lines)
}

const drawGroup = (month: ProjectedMonth): TraceGroup =>
  group('Draw', month.draw, [
    { name: 'Planned', dollars: month.plannedDraw },
    { name: 'What the farm cannot pay above its reserve', dollars: -month.unmetDraw },
  ])

const livingGroup = (plan: Plan, span: Span, place: number, month: ProjectedMonth): TraceGroup => {
  const lines = plan.household.living.map((line) => {
    const alone = {
      ...plan,
      household: { ...plan.household, living: [line], sideVentures: [], pay: [], oneOffs: [] },
    }
    const one = compileHousehold(alone, span, calmWeather(span.months))
    const real = one.livingReal[place]! - one.farmGoodsReal[place]!
    return {
      name: line.name,
      dollars: real * month.level + one.livingFixed[place]!,
      says:
        line.growth === 'care'
          ? 'grows with the cost of care'
          : `at prices ${month.level.toFixed(3)} times the first`,
    }
  })
  return group('Living costs', month.living, lines)
}

const healthGroup = (month: ProjectedMonth): TraceGroup =>
  group('Health', month.premiums + month.care, [
    { name: 'Premiums before the credit', dollars: month.premiums + month.advanceCredit },
    { name: 'Credit taken in advance', dollars: -month.advanceCredit },
    { name: 'Care', dollars: month.care },
  ])

const incomeGroup = (month: ProjectedMonth): TraceGroup =>
  group('Other income', month.pay + month.side + month.socialSecurity, [
    { name: 'Off-farm pay', dollars: month.pay },
    { name: 'Side ventures after their costs', dollars: month.side },
    { name: 'Social Security', dollars: month.socialSecurity },
  ])

const savingsGroup = (plan: Plan, month: ProjectedMonth, before: ProjectedMonth | undefined): TraceGroup => {
  const held = (of: ProjectedMonth) => of.cash + of.taxable + of.traditional + of.roth
  const opening = before
    ? held(before)
    : plan.savings.accounts.reduce((total, account) => total + account.balance, 0)
  return group('Change of all savings', held(month) - opening, [
    { name: 'Draw', dollars: month.draw },
    { name: 'Other income', dollars: month.pay + month.side + month.socialSecurity },
    { name: 'Loans drawn', dollars: month.loanDrawn },
    { name: 'Living costs', dollars: -month.living },
    { name: 'Loan payments', dollars: -month.loanPayments },
    { name: 'Premiums and care', dollars: -month.premiums - month.care },
    { name: 'Tax', dollars: -month.taxes },
    { name: 'One-off items', dollars: -month.oneOffs },
    { name: 'Into the farm', dollars: -month.contribution },
    { name: 'Needs that nothing met', dollars: month.unmetNeed },
    { name: 'Saver’s match', dollars: month.saversMatch },
    { name: 'What accounts earned', dollars: month.returns },
  ])
}

const spendableGroup = (month: ProjectedMonth): TraceGroup =>
  group('Spendable savings', month.spendable, [
    { name: 'Cash', dollars: month.cash },
    { name: 'Taxable accounts', dollars: month.taxable },
    { name: 'Tax owed so far', dollars: -month.taxOwed },
  ])
