// Opens one month of a projection into what made it: every line of the plan that counts in it, at that month's prices.
import { formatPercent } from '#money/format.ts'
import { lived } from '#plan/life/lived.ts'
import type { Plan } from '#plan/plan.ts'
import { planSpan } from './compile/compile.ts'
import type { ProjectedMonth, Projection } from './project.ts'

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

/** Groups of lines for a month given as text; null when the course has no such month. The run itself noted the lines as it summed them. */
export const traceMonth = (saved: Plan, projection: Projection, text: string): TraceGroup[] | null => {
  const plan = lived(saved)
  const place = projection.months.findIndex((month) => month.month === text)
  if (place < 0) return null
  const month = projection.months[place]!
  const before = projection.months[place - 1]
  const parts = partsOfMonth(plan, projection, place)
  return [
    farmGroup(plan, parts, month),
    drawGroup(month),
    livingGroup(plan, parts, month),
    healthGroup(month),
    incomeGroup(plan, month),
    savingsGroup(plan, month, before),
    spendableGroup(month),
  ].filter((one) => one.lines.length > 0)
}

interface MonthParts {
  living: number[]
  farmSales: number[]
  farmDirectCosts: number[]
}

const partsOfMonth = (plan: Plan, { parts }: Projection, place: number): MonthParts => {
  if (parts === null) throw new Error('This run was made without its parts')
  const { months } = planSpan(plan)
  const column = (table: Float64Array) =>
    Array.from({ length: table.length / months }, (_, row) => table[row * months + place]!)
  return {
    living: column(parts.living),
    farmSales: column(parts.farmSales),
    farmDirectCosts: column(parts.farmDirectCosts),
  }
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

const farmGroup = ({ farm }: Plan, parts: MonthParts, month: ProjectedMonth): TraceGroup => {
  const lines: TraceLine[] = [...farm.enterprises, ...farm.herds].flatMap(({ name }, row) => [
    { name: `${name}: sales`, dollars: parts.farmSales[row]! },
    { name: `${name}: direct costs`, dollars: -parts.farmDirectCosts[row]! },
  ])
  lines.push({ name: 'Markets: fees and miles', dollars: -month.farmMarketCosts })
  lines.push({ name: 'Overheads', dollars: -month.farmOverheads })
  lines.push({ name: 'Hired help', dollars: -month.farmHired, says: `${month.hiredHours.toFixed(0)} hours` })
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
    { name: 'What the farm cannot spare over twelve months', dollars: -month.unmetDraw },
    { name: 'Called on to hold savings at the floor', dollars: month.drawToHoldFloor },
  ])

const livingGroup = ({ household }: Plan, parts: MonthParts, month: ProjectedMonth): TraceGroup =>
  group(
    'Living costs',
    month.living,
    household.living.map((line, place) => ({
      name: line.name,
      dollars: parts.living[place]!,
      ...saidOf(line.growth, month.level),
    })),
  )

/** How a cost of the month follows prices; nothing where these are those of the start. */
const saidOf = (growth: Plan['household']['living'][number]['growth'], level: number): { says?: string } => {
  if (growth === 'care') return { says: 'grows with the cost of care' }
  if (growth === 'fixed') return { says: 'stays as it is' }
  const percent = formatPercent(Math.abs(level - 1), 1)
  if (percent === formatPercent(0, 1)) return {}
  return { says: `prices ${level > 1 ? 'up' : 'down'} ${percent} since the plan’s start` }
}

const healthGroup = (month: ProjectedMonth): TraceGroup =>
  group('Health', month.premiums + month.care, [
    { name: 'Premiums before the credit', dollars: month.premiums + month.advanceCredit },
    { name: 'Credit taken in advance', dollars: -month.advanceCredit },
    { name: 'Care', dollars: month.care },
  ])

const othersWords = ({ household }: Plan): string =>
  household.dependents.some(({ ownMoney }) => ownMoney > 0)
    ? 'Benefits of children and others at home'
    : 'Social Security for the children'

const incomeGroup = (plan: Plan, month: ProjectedMonth): TraceGroup =>
  group('Other income', month.pay + month.side + month.socialSecurity, [
    { name: 'Off-farm pay', dollars: month.pay },
    { name: 'Side ventures after their costs', dollars: month.side + month.sideKept },
    { name: 'Kept by side ventures for their work', dollars: -month.sideKept },
    { name: 'Social Security', dollars: month.socialSecurity - month.othersBenefits },
    { name: othersWords(plan), dollars: month.othersBenefits },
  ])

const savingsGroup = (plan: Plan, month: ProjectedMonth, before: ProjectedMonth | undefined): TraceGroup => {
  const held = (of: ProjectedMonth) => of.cash + of.taxable + of.traditional + of.roth + of.health
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
    { name: 'Federal tax', dollars: -(month.taxes - month.stateTaxes) },
    { name: 'State tax', dollars: -month.stateTaxes },
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
    { name: 'Retirement accounts after tax', dollars: month.retirementSpendable },
    { name: 'Tax owed so far', dollars: -month.taxOwed },
  ])
