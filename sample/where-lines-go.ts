// How Mara and Teo sort their statement lines: payee by payee, as they would choose on the sorting page.
import type { Day } from '#calendar/day.ts'
import type { SideId } from '#ledger/account.ts'
import { mixedReceipts } from './household-movements.ts'

export interface NamedAccount {
  side: SideId
  name: string
  enterprise?: string
}

/** `weights` split the amount in proportion. */
export type Destination =
  | { kind: 'account'; to: NamedAccount }
  | { kind: 'split'; parts: { to: NamedAccount; weight: number }[] }

export interface LineFacts {
  side: SideId
  day: Day
  payee: string
  memo: string
}

/** Throws on a payee the family has never seen: the statements and this list are made together. */
export const destinationOf = (line: LineFacts): Destination => {
  const bill = mixedReceipts.find(
    (each) => each.day === line.day && each.payee === line.payee && line.side === 'household',
  )
  if (bill && line.memo === 'House and farm goods')
    return {
      kind: 'split',
      parts: [
        { to: { side: 'household', name: 'Household goods' }, weight: bill.household },
        { to: { side: 'farm', name: bill.farmAccount }, weight: bill.farm },
      ],
    }
  if (/SATURDAY MARKET|BRANCH CASH DEPOSIT/.test(line.payee))
    return { kind: 'split', parts: takings(line.day) }
  if (line.payee.startsWith('ROOT AND RIDGE SEED') && line.day >= '2025' && line.day.slice(5, 7) <= '06')
    return { kind: 'split', parts: seeds }
  const found = (line.side === 'farm' ? farm : household).find(
    ([payee, , , memo]) => line.payee.startsWith(payee) && (memo === undefined || line.memo.startsWith(memo)),
  )
  if (!found) throw new Error(`Nobody knows where this line goes: ${line.side} ${line.payee} ${line.memo}`)
  const [, name, enterprise] = found
  return { kind: 'account', to: { side: line.side, name, ...(enterprise ? { enterprise } : {}) } }
}

const part = (name: string, enterprise: string, weight: number) => ({
  to: { side: 'farm', name, enterprise },
  weight,
})

/** Spring orders are for the flower beds too, since there are some. */
const seeds = [part('Seeds and plants', 'vegetables', 82), part('Seeds and plants', 'flowers', 18)]

/** What a market or stand deposit was for, as the stall's notebook says: flowers in summer, honey from August. */
const takings = (day: Day): { to: NamedAccount; weight: number }[] => {
  const month = day.slice(5, 7)
  const flowers =
    day >= '2024-06-01' && month >= '06' && month <= '09'
      ? day >= '2026-06-10' && day <= '2026-07-31'
        ? 6
        : 18
      : 0
  const honey = month >= '08' ? { '2023': 20, '2024': 17, '2025': 22, '2026': 27 }[day.slice(0, 4)]! : 0
  return [
    part('Vegetables and fruit sold', 'vegetables', 100 - flowers - honey),
    ...(flowers > 0 ? [part('Cut flowers sold', 'flowers', flowers)] : []),
    ...(honey > 0 ? [part('Honey and hive goods sold', 'honey', honey)] : []),
  ]
}

/** Beginning of the payee, account, enterprise, beginning of the memo; the first that fits. */
type Row = readonly [payee: string, account: string, enterprise?: string, memo?: string]

const farm: readonly Row[] = [
  ['CARD BATCH VEGETABLE SHARES', 'CSA shares', 'shares'],
  ['CARD REFUNDS VEGETABLE SHARES', 'CSA shares', 'shares'],
  ['ORDER PAYOUT HONEY', 'Honey and hive goods sold', 'honey'],
  ['MOBILE CHECK DEPOSIT LAMB', 'Raised livestock and meat sold', 'sheep'],
  ['MONTHLY ACCOUNT FEE', 'Card and bank fees'],
  ['CARD READER FEES', 'Card and bank fees'],
  ['VALLEY ELECTRIC COOP', 'Farm utilities'],
  ['HIGH SPUR PROPANE', 'Farm utilities'],
  ['COPPERLINE MOBILE', 'Farm utilities'],
  ['LARKSPUR WEB HOSTING', 'Advertising'],
  ['LANTERN PRINT SHOP', 'Advertising'],
  ['LANTERN FARM MUTUAL', 'Farm insurance'],
  ['OAK GAP FARM SUPPLY', 'Machinery and equipment', 'vegetables', 'Well pump'],
  ['OAK GAP FARM SUPPLY', 'Supplies', 'vegetables'],
  ['BOX AND TWINE SUPPLY', 'Packaging'],
  ['TARN HOLLOW MARKET ASSN', 'Market fees and dues'],
  ['HOLLOW FEED AND GRAIN', 'Feed', 'sheep'],
  ['MEADOW RUN HAY', 'Feed', 'sheep'],
  ['CHECK', 'Hired labor'],
  ['ROOT AND RIDGE SEED', 'Seeds and plants', 'vegetables'],
  ['GROWERS WINTER MEETING', 'Training and advice'],
  ['DEEP LOAM COMPOST', 'Fertilizer and lime', 'vegetables'],
  ['GORSE HILL BEES', 'Machinery and equipment', 'honey', 'Four hives'],
  ['GORSE HILL BEES', 'Supplies', 'honey'],
  ['RIDGE LARGE ANIMAL VET', 'Veterinary, breeding, medicine', 'sheep'],
  ['NORTH SPUR REPAIR', 'Repairs and upkeep'],
  ['TARN TOWNSHIP', 'Taxes and licenses'],
  ['STONE FORD MEATS', 'Custom hire', 'sheep'],
  ['CROSSROADS FUEL', 'Fuel and oil'],
  ['HOOP AND FRAME WORKS', 'Buildings and fences', 'sheep', 'Lambing'],
  ['HOOP AND FRAME WORKS', 'Buildings and fences', 'vegetables'],
  ['OAK GAP LUMBER', 'Buildings and fences', 'vegetables'],
  ['GREENLINE FENCING', 'Buildings and fences', 'sheep'],
  ['TILLAGE EXCHANGE', 'Machinery and equipment', 'vegetables'],
  ['COLD BROOK REFRIGERATION', 'Machinery and equipment', 'vegetables'],
  ['SECOND ROAD VANS', 'Machinery and equipment'],
  ['BIRCH FELL FLOCK', 'Breeding stock', 'sheep'],
]

const household: readonly Row[] = [
  ['INTEREST PAID', 'Interest and dividends'],
  ['KEYSTEM HEALTH PLAN', 'Health premiums'],
  ['VALLEY ELECTRIC COOP', 'Utilities'],
  ['HIGH SPUR PROPANE', 'Utilities'],
  ['TARN VALLEY FIBER', 'Telephone and internet'],
  ['COPPERLINE MOBILE', 'Telephone and internet'],
  ['LANTERN INSURANCE', 'Vehicle insurance', '', 'Cars'],
  ['LANTERN INSURANCE', 'Home insurance and property tax'],
  ['THREAD AND SOLE', 'Clothing'],
  ['HARBORLIGHT HOUSEWARES', 'Gifts and giving', '', 'Presents'],
  ['HARBORLIGHT HOUSEWARES', 'Household goods'],
  ['TARN HOLLOW SCHOOL', 'Children'],
  ['TARN LAKE CAMP', 'Children'],
  ['HOLLOW FAMILY CLINIC', 'Care and medicine'],
  ['BRIGHT RIDGE DENTAL', 'Care and medicine'],
  ['OAK GAP ANIMAL CARE', 'Other living costs'],
  ['PENNYROYAL GENERAL STORE', 'Other living costs'],
  ['TARN HOLLOW FOOD PANTRY', 'Gifts and giving'],
  ['HOLLOW AUTO SERVICE', 'Vehicles and travel'],
  ['CROSSROADS FUEL', 'Vehicles and travel'],
  ['NORTH GAP PLUMBING', 'Home repairs'],
  ['OAK GAP LUMBER', 'Home repairs'],
  ['TARN COUNTY TREASURER', 'Home insurance and property tax'],
  ['DUNE COTTAGE RENTALS', 'Free time'],
  ['COVERED BRIDGE DINER', 'Free time'],
  ['LANTERN CINEMA', 'Free time'],
  ['RIVER SPOKE BOOKS', 'Free time'],
  ['MILLSTONE MARKET', 'Groceries'],
  // The first refund is tax withheld from the last pay; later ones are the child's credit.
  ['US TREASURY TAX REFUND', 'Federal taxes', '', 'Tax year 2023'],
  ['US TREASURY TAX REFUND', 'Benefits and credits'],
  ['STATE INCOME TAX', 'State and local income taxes'],
]
