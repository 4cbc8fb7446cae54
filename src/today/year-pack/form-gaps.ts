// What Schedule F and Schedule C ask and nobody said yet: whose they are, and what each form cannot do without.
import { farmSide, type SideId } from '#ledger/account.ts'
import type { FormLine } from '#ledger/reports/form-lines.ts'
import { homeLine } from '#ledger/reports/schedule-f.ts'
import type { StockInventory } from '#ledger/reports/stock-inventory.ts'
import type { BusinessSaid, YesNo } from '#ledger/tax/form-said.ts'
import { isShareUntold, listedShares, vehicleShare } from '#ledger/tax/vehicle-share.ts'
import { farmShareOfFirst } from '#today/cover/cover-household.ts'
import type { CurrentPlan } from '#today/current-plan.ts'
import type { BooksYear, VentureYear } from '#today/tax/books-year.ts'
import { ownedByFirst, runnerOf } from '#today/tax/earners.ts'
import { withForms } from './business-forms.ts'
import type { YearPackFigures } from './figures.ts'

type Gap = YearPackFigures['gaps'][number]

/** `owes1099` is what the books' payees tell, by side. */
export const formGaps = (
  { farm, ventures }: BooksYear,
  current: CurrentPlan,
  year: number,
  owes1099: ReadonlyMap<SideId, YesNo>,
): Gap[] => {
  const owes = (side: SideId) => owes1099.get(side) ?? null
  const plan = current.status === 'read' ? current.plan : null
  const isCouple = (plan?.household.people.length ?? 0) > 1
  return [
    ...(farm && farm.form.grossIncomeCents !== 0 ? farmGaps(farm, year, owes(farmSide)) : []),
    ...[...(farm ? [farm] : []), ...ventures].flatMap(({ inventory }) => classGaps(inventory)),
    ...(farm && plan && isCouple ? ownerGaps(farm, plan, year) : []),
    ...ventures.flatMap((venture) => ventureGaps(venture, year, owes(venture.form.sideId))),
    ...(isCouple
      ? ventures
          .filter(({ said, form }) => said.person === null && runnerOf(plan!, form.name) === null)
          .map(({ form }) => ({
            says: `${form.name}: who runs it is not entered. Until then its profit counts as ${plan!.household.people[0]!.name}’s.`,
            href: ventureHref(form.sideId, year),
          }))
      : []),
  ]
}

/** Bought to be used, and nobody said how it is written off; land and what is for sale never is. */
const classGaps = ({ rows, year }: StockInventory): Gap[] => {
  const unclear = rows.filter(
    ({ holding }) =>
      writtenOff.includes(holding.kind) &&
      holding.depreciation === null &&
      !holding.raised &&
      holding.costCents > 0 &&
      holding.disposedDay === null,
  )
  return unclear.length === 0
    ? []
    : [
        {
          says: `${unclear.map(({ holding }) => holding.name).join(', ')}: it has no class, so nothing is written off. Enter what it cost when it was bought, its class, and when it came into use.`,
          href:
            unclear.length === 1
              ? `/year-pack/holdings/${unclear[0]!.holding.id}?year=${year}`
              : `/year-pack/inputs?year=${year}#holdings`,
        },
      ]
}

const writtenOff: readonly string[] = ['equipment', 'building', 'fence', 'breeding_stock']

const farmHref = (year: number): string => `/year-pack/schedule-f?year=${year}`
const ventureHref = (side: string, year: number): string => `/year-pack/schedule-c/${side}?year=${year}`

/** Lines that the form asks of a business and nobody answered, by their letters on it; material part and Forms 1099 among them. */
const unanswered = (
  said: BusinessSaid,
  netProfitCents: number,
  lines: { employerId: string; takesPart: string; owes1099: string; files1099: string; atRisk: string },
): string[] =>
  [
    said.product === '' ? 'A' : '',
    said.code === '' ? 'B' : '',
    said.hasEmployerId === null ? lines.employerId : '',
    said.takesPart === null ? lines.takesPart : '',
    said.owes1099 === null ? lines.owes1099 : '',
    said.owes1099 === 'yes' && said.files1099 === null ? lines.files1099 : '',
    netProfitCents < 0 && said.atRisk === null ? lines.atRisk : '',
  ].filter(Boolean)

const farmLetters = { employerId: 'D', takesPart: 'E', owes1099: 'F', files1099: 'G', atRisk: '36' }
const ventureLetters = { employerId: 'D', takesPart: 'G', owes1099: 'I', files1099: 'J', atRisk: '32' }

const farmGaps = (
  { said, form, inventory }: NonNullable<BooksYear['farm']>,
  year: number,
  owes: YesNo,
): Gap[] => {
  const missing = unanswered(withForms(said, owes), form.netProfitCents, farmLetters)
  const asked =
    missing.length === 0 ? [] : [`Schedule F asks more than the books know: lines ${missing.join(', ')}.`]
  const area =
    said.weatherSales.length > 0 && said.weatherArea !== 'yes'
      ? [
          said.weatherArea === 'no'
            ? 'Sales because of weather are entered, but the area was not declared eligible for federal help: no income from them is put off.'
            : 'Income of stock sold because of weather is put off, which is allowed only where the area was declared eligible for federal help (26 USC 451(g)). Enter whether it was.',
        ]
      : []
  return [
    ...asked,
    ...area,
    ...vehicleSays(said, inventory, form.expenses, '10'),
    ...homeSays(
      said,
      form.expenses.some(({ line }) => line === homeLine),
    ),
  ].map((says) => ({ says, href: farmHref(year) }))
}

/** Months of less than that use do not count, so that the forms ask since when it is. */
const homeSays = ({ homeSquareFeet, homeFrom }: BusinessSaid, isDeducted: boolean): string[] =>
  isDeducted && homeFrom === null
    ? [
        `${homeSquareFeet} square feet of the home count for all of the year: say since when they are used only for this work.`,
      ]
    : []

/** A car driven privately too: whether its whole costs are booked, and what part of the miles was the business's. */
const vehicleSays = (
  { vehicle }: BusinessSaid,
  inventory: StockInventory,
  expenses: readonly FormLine[],
  at: string,
): string[] => {
  const shares = listedShares(inventory)
  const line = expenses.find((one) => one.line === at)
  if (!line || line.accounts.length === 0) return []
  if (isShareUntold(vehicle, shares))
    return [
      `Cars and trucks on the inventory have different shares of business use, and line ${at} takes all that is booked: say the year’s miles, or that the books hold the business’s part alone.`,
    ]
  return vehicle.booked === null && vehicleShare(vehicle, shares) !== null
    ? [
        `Line ${at}, car and truck: ${line.note}. Say whether the whole of these costs is booked. If the books hold the business’s part alone, all of it counts.`,
      ]
    : []
}

const ownerGaps = (
  { said, form }: NonNullable<BooksYear['farm']>,
  plan: Parameters<typeof ownedByFirst>[0],
  year: number,
): Gap[] => {
  if (form.grossIncomeCents === 0 && form.totalExpensesCents === 0) return []
  if (said.ownership === null)
    return [
      {
        says: 'Two of you: enter whose farm it is, which makes it one form, two, or a partnership’s. Until then its profit is split as the plan splits it.',
        href: farmHref(year),
      },
    ]
  const [share, planned] = [ownedByFirst(plan, said), farmShareOfFirst(plan)]
  return Math.abs(share - planned) < 0.0001
    ? []
    : [
        {
          says: `The plan counts ${percent(planned)} of the farm as ${plan.household.people[0]!.name}’s, its forms ${percent(share)}: months left is worked with the plan’s.`,
          href: '/settings/people',
        },
      ]
}

const percent = (share: number): string => `${Math.round(share * 100)} percent`

const ventureGaps = ({ said, form, inventory }: VentureYear, year: number, owes: YesNo): Gap[] => {
  const missing = unanswered(withForms(said, owes), form.netProfitCents, ventureLetters)
  return [
    ...[...vehicleSays(said, inventory, form.expenses, '9'), ...homeSays(said, form.homeCents > 0)].map(
      (says) => ({
        says: `${form.name}: ${says}`,
        href: ventureHref(form.sideId, year),
      }),
    ),
    ...(missing.length > 0
      ? [
          {
            says: `Schedule C of ${form.name} asks more than the books know: lines ${missing.join(', ')}.`,
            href: ventureHref(form.sideId, year),
          },
        ]
      : []),
    ...form.withoutLine
      .filter(({ kind }) => kind === 'expense')
      .map((account) => ({
        says: `${form.name}: “${account.name}” has no line of Schedule C that fits, and counts with other costs until you choose one.`,
        href: `/settings/accounts/${account.id}`,
      })),
  ]
}
