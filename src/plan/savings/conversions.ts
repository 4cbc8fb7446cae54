// Conversions in the plan: what moves from a traditional account to a Roth account each December, and up to which line.
import { z } from 'zod'
import { dollars, idField, share, wholeNumber } from '../fields.ts'

/** What a conversion goes up to; places of it stand in compiled plans. */
export const conversionLines = ['amount', 'poverty', 'bracket'] as const

export const conversionSchema = z.object({
  id: idField(),
  from: idField().meta({
    title: 'From traditional account',
    names: 'account',
    description: 'Not one that was inherited. A plan at work: from when that employer was left',
  }),
  into: idField().meta({
    title: 'Into Roth account',
    names: 'account',
    description:
      'Of the same owner. What was converted comes out free of the early addition after five years',
  }),
  upTo: z
    .enum(conversionLines)
    .default('amount')
    .meta({
      title: 'Goes up to',
      labels: {
        amount: 'A fixed amount a year',
        poverty: 'A percent of the federal poverty level, by household income',
        bracket: 'The top of a tax bracket',
      },
      description:
        'Done in December, when the year is known: as many whole dollars as keep the year at or under the line',
    }),
  perYear: dollars()
    .default(0)
    .meta({ title: 'Fixed amount', unit: 'dollars a year', description: 'In today’s prices' }),
  percent: wholeNumber(0, 1000).default(400).meta({
    title: 'Percent of the federal poverty level',
    told: 'percent of the poverty level',
    description:
      '138 ends Medicaid in most states, 150, 200 and 250 are steps of cost sharing, above 400 there may be no premium credit',
  }),
  rate: share().default(0.12).meta({
    title: 'Rate of the bracket',
    unit: 'share',
    description: 'As 12%. 0: up to the deduction, where nothing is taxed',
  }),
  fromYear: wholeNumber(2000, 2150)
    .optional()
    .meta({ title: 'From the year', told: 'calendar year', description: 'Empty: at once' }),
  toYear: wholeNumber(2000, 2150)
    .optional()
    .meta({ title: 'To the year, that one included', told: 'calendar year' }),
})

export type Conversion = z.infer<typeof conversionSchema>

interface Held {
  id: string
  kind: string
  owner?: string | undefined
  inherited?: string | undefined
  heldAs: string
}

/** Why it cannot be done between these accounts, by the field; empty where it can. `first`: who owns an account that names nobody. */
export const conversionFaults = (
  { from, into }: Pick<Conversion, 'from' | 'into'>,
  accounts: readonly Held[],
  first: string | undefined,
): { field: 'from' | 'into'; message: string }[] => {
  const [source, target] = [from, into].map((id) => accounts.find((one) => one.id === id))
  const can = (kind: string) =>
    accounts.filter((one) => one.kind === kind && one.inherited === undefined).map((one) => one.id)
  const choose = (kind: string) =>
    can(kind).join(', ') || `add a ${kind === 'roth' ? 'Roth' : kind} account first`
  if (source === undefined || !can('traditional').includes(from))
    return [
      {
        field: 'from',
        message: `Choose a traditional account that was not inherited: ${choose('traditional')}`,
      },
    ]
  if (target === undefined || !can('roth').includes(into) || target.heldAs !== 'ira')
    return [{ field: 'into', message: `Choose a Roth IRA that was not inherited: ${choose('roth')}` }]
  return (source.owner ?? first) === (target.owner ?? first)
    ? []
    : [
        {
          field: 'into',
          message: 'Choose a Roth account of the same owner: nobody converts into another person’s account',
        },
      ]
}
