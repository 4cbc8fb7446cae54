// The fields of the farm's forms as data: one list draws the form and reads it back into the plan.
import { assetClasses } from '#farm/farm-document.ts'
import { herdKinds } from '#farm/herd-document.ts'

export type SpecKind =
  | 'text'
  | 'money'
  | 'quantity'
  | 'whole'
  | 'percent'
  | 'month'
  | 'checkbox'
  /** A year's amount, or twelve amounts. */
  | 'seasonal'
  /** One figure for each month, or twelve figures. */
  | 'level'
  /** Lines of a month and a figure: `2029-01 76`. */
  | 'steps'
  /** Lines of a month and a level: `2036-01 0`, or a month and twelve figures. */
  | 'level-steps'
  /** Free lines that the page reads by itself. */
  | 'lines'
  | 'choice'
  /** Tick boxes, one for each market of the plan. */
  | 'markets'
  /** An enterprise or herd of the plan, or none. */
  | 'line'

export interface FieldSpec {
  /** Path within the thing, like `prices.youngSold`; the input's name too. */
  name: string
  label: string
  hint?: string
  kind: SpecKind
  /** Left empty, the field is left out of the plan and its default holds. */
  optional?: boolean
  options?: readonly { value: string; label: string }[]
  /** Fields under one heading stand together. */
  group: string
}

export type FarmKind = 'enterprises' | 'markets' | 'herds' | 'purchases' | 'overheads' | 'loans'

export interface KindWords {
  kind: FarmKind
  one: string
  add: string
  purpose: string
  fields: readonly FieldSpec[]
}

const twelve = 'A year’s amount, or twelve amounts from January with spaces between'
const level = 'One figure for every month, or twelve from January with spaces between'
const asOptions = (values: readonly string[]) =>
  values.map((value) => ({ value, label: value.replaceAll('-', ' ') }))

const enterprise: KindWords = {
  kind: 'enterprises',
  one: 'enterprise',
  add: 'Add an enterprise',
  purpose: 'A budget by the unit (bed, hive, share, bird), by month, at today’s prices.',
  fields: [
    { name: 'name', label: 'Name', kind: 'text', group: 'What it is' },
    { name: 'unit', label: 'Unit', hint: 'Bed, hive, share, bird', kind: 'text', group: 'What it is' },
    { name: 'scale', label: 'Units today', kind: 'quantity', group: 'What it is' },
    {
      name: 'scaleSteps',
      label: 'Units later',
      hint: 'One line for each change, like 2029-01 76',
      kind: 'steps',
      group: 'What it is',
    },
    {
      name: 'start',
      label: 'Starts in',
      hint: 'Empty when it runs already',
      kind: 'month',
      optional: true,
      group: 'What it is',
    },
    { name: 'end', label: 'Ends after', kind: 'month', optional: true, group: 'What it is' },
    { name: 'startUpMonths', label: 'Months before the first sale', kind: 'whole', group: 'What it is' },
    {
      name: 'salesPerUnit',
      label: 'Sales a unit, dollars',
      hint: twelve,
      kind: 'seasonal',
      group: 'Budget by the unit',
    },
    {
      name: 'costsPerUnit',
      label: 'Direct costs a unit, dollars',
      hint: twelve,
      kind: 'seasonal',
      group: 'Budget by the unit',
    },
    {
      name: 'hoursPerUnit',
      label: 'Hours a unit',
      hint: twelve,
      kind: 'seasonal',
      group: 'Budget by the unit',
    },
    {
      name: 'yieldPerUnit',
      label: 'Yield a unit and year',
      hint: 'Only for break-even prices',
      kind: 'quantity',
      optional: true,
      group: 'Budget by the unit',
    },
    {
      name: 'yieldMeasure',
      label: 'Yield is counted in',
      hint: 'Pounds, bunches, jars',
      kind: 'text',
      optional: true,
      group: 'Budget by the unit',
    },
    { name: 'landPerUnit', label: 'Acres a unit', kind: 'quantity', group: 'Budget by the unit' },
    {
      name: 'markets',
      label: 'Sold at',
      hint: 'None ticked: sold without a market, and no capacity limits it',
      kind: 'markets',
      group: 'Where it sells',
    },
    {
      name: 'tag',
      label: 'Tag in the books',
      hint: 'The enterprise under which the books keep its lines; empty for its own short name',
      kind: 'text',
      optional: true,
      group: 'Where it sells',
    },
    {
      name: 'scheduleFSalesLine',
      label: 'Schedule F line of its sales',
      kind: 'text',
      group: 'Where it sells',
    },
    {
      name: 'seasonSpread',
      label: 'How far a season strays, %',
      hint: 'Standard deviation of a season’s yield; used with drawn chance only',
      kind: 'percent',
      group: 'Limits for the mix',
    },
    { name: 'minimumScale', label: 'Never fewer units than', kind: 'quantity', group: 'Limits for the mix' },
    {
      name: 'maximumScale',
      label: 'Never more units than',
      kind: 'quantity',
      optional: true,
      group: 'Limits for the mix',
    },
    { name: 'wholeUnits', label: 'Only whole units', kind: 'checkbox', group: 'Limits for the mix' },
    {
      name: 'pinned',
      label: 'Keep it as it is, whatever the mix would say',
      kind: 'checkbox',
      group: 'Limits for the mix',
    },
  ],
}

const market: KindWords = {
  kind: 'markets',
  one: 'market',
  add: 'Add a market',
  purpose: 'A market day, a stand, a pick-up: how often you go, what it can take, what it costs.',
  fields: [
    { name: 'name', label: 'Name', kind: 'text', group: 'The market' },
    {
      name: 'trips',
      label: 'Trips a month',
      hint: `${level}. A stand that needs no trip has 1`,
      kind: 'level',
      group: 'The market',
    },
    {
      name: 'tripsSteps',
      label: 'Trips later',
      hint: 'One line for each change: 2036-01 0 drops it from January 2036',
      kind: 'level-steps',
      group: 'The market',
    },
    {
      name: 'start',
      label: 'Starts in',
      hint: 'Empty when it runs already',
      kind: 'month',
      optional: true,
      group: 'The market',
    },
    { name: 'end', label: 'Ends after', kind: 'month', optional: true, group: 'The market' },
    {
      name: 'salesPerTrip',
      label: 'Most that one trip sells, dollars',
      hint: level,
      kind: 'level',
      group: 'What it takes',
    },
    {
      name: 'followShare',
      label: 'Customers who follow when a trip is dropped, %',
      hint: 'They buy at the markets that stay',
      kind: 'percent',
      group: 'What it takes',
    },
    { name: 'feePerTrip', label: 'Fee a trip, dollars', hint: level, kind: 'level', group: 'What it costs' },
    {
      name: 'feePerMonth',
      label: 'Fee a month, dollars',
      hint: level,
      kind: 'level',
      group: 'What it costs',
    },
    {
      name: 'hoursPerTrip',
      label: 'Hours a trip',
      hint: 'All who go, loading and driving counted',
      kind: 'quantity',
      group: 'What it costs',
    },
    { name: 'milesPerTrip', label: 'Miles a trip', kind: 'quantity', group: 'What it costs' },
    { name: 'costPerMile', label: 'Cost a mile, dollars', kind: 'quantity', group: 'What it costs' },
    {
      name: 'leastShareWhenRun',
      label: 'When run at all, at least this part of its trips, %',
      hint: 'A stall is taken for the season; for the mix',
      kind: 'percent',
      group: 'What it costs',
    },
    {
      name: 'pinned',
      label: 'Keep it as it is, whatever the mix would say',
      kind: 'checkbox',
      group: 'What it costs',
    },
  ],
}

const rate = (name: string, label: string, kind: SpecKind = 'quantity'): FieldSpec => ({
  name: `rates.${name}`,
  label,
  kind,
  optional: true,
  group: 'Rates (empty: common practice for the kind)',
})

const herd: KindWords = {
  kind: 'herds',
  one: 'herd or flock',
  add: 'Add a herd or flock',
  purpose: 'Heads at the start, rates, prices and what the land carries; the build-up follows.',
  fields: [
    { name: 'name', label: 'Name', kind: 'text', group: 'Heads' },
    { name: 'kind', label: 'Kind', kind: 'choice', options: asOptions(herdKinds), group: 'Heads' },
    { name: 'start', label: 'First heads stand here in', kind: 'month', group: 'Heads' },
    { name: 'end', label: 'Sold up after', kind: 'month', optional: true, group: 'Heads' },
    { name: 'breedingFemales', label: 'Breeding females then', kind: 'quantity', group: 'Heads' },
    { name: 'replacements', label: 'Young females kept to breed', kind: 'quantity', group: 'Heads' },
    { name: 'males', label: 'Males', kind: 'quantity', group: 'Heads' },
    {
      name: 'carryingLimit',
      label: 'Breeding females the land and feed carry',
      kind: 'quantity',
      group: 'Heads',
    },
    {
      name: 'ownedAlready',
      label: 'They were ours already: no money is paid',
      kind: 'checkbox',
      group: 'Heads',
    },
    {
      name: 'buysReplacements',
      label: 'Bought again each year instead of bred (layers)',
      kind: 'checkbox',
      group: 'Heads',
    },
    { name: 'prices.breedingFemale', label: 'A breeding female costs', kind: 'money', group: 'Prices' },
    { name: 'prices.male', label: 'A male costs', kind: 'money', group: 'Prices' },
    {
      name: 'prices.youngSold',
      label: 'A young one sells for',
      hint: 'After kill and cut, when sold as meat',
      kind: 'money',
      group: 'Prices',
    },
    { name: 'prices.cullFemale', label: 'A cull sells for', kind: 'money', group: 'Prices' },
    {
      name: 'productPerFemale',
      label: 'Wool, milk or eggs a female, dollars',
      hint: twelve,
      kind: 'seasonal',
      group: 'Prices',
    },
    {
      name: 'costPerFemale',
      label: 'Feed and care a grown head and month, dollars',
      hint: level,
      kind: 'level',
      group: 'Feed, hours, land',
    },
    {
      name: 'costPerYoung',
      label: 'The same for a young one',
      hint: level,
      kind: 'level',
      group: 'Feed, hours, land',
    },
    {
      name: 'hoursPerFemale',
      label: 'Hours a female and month',
      hint: level,
      kind: 'level',
      group: 'Feed, hours, land',
    },
    {
      name: 'hoursFixed',
      label: 'Hours a month for the whole herd',
      hint: level,
      kind: 'level',
      group: 'Feed, hours, land',
    },
    { name: 'landPerFemale', label: 'Acres a female', kind: 'quantity', group: 'Feed, hours, land' },
    {
      name: 'winterFeedPerFemale',
      label: 'Winter feed a female',
      hint: 'In the measure of the farm’s winter feed',
      kind: 'quantity',
      group: 'Feed, hours, land',
    },
    { name: 'markets', label: 'Sold at', kind: 'markets', group: 'Feed, hours, land' },
    { name: 'tag', label: 'Tag in the books', kind: 'text', optional: true, group: 'Feed, hours, land' },
    rate('conception', 'Conceive, %', 'percent'),
    rate('birthsPerFemale', 'Young born a female that gives birth'),
    rate('youngLossToWeaning', 'Young lost before weaning, %', 'percent'),
    rate('adultLossPerYear', 'Grown stock lost a year, %', 'percent'),
    rate('weaningAgeMonths', 'Weaned at, months', 'whole'),
    rate('saleAgeMonths', 'Sold at, months', 'whole'),
    rate('breedingAgeMonths', 'Joins the breeding herd at, months', 'whole'),
    rate('cullPerYear', 'Culled a year, %', 'percent'),
    rate('keepOfFemaleYoung', 'Female young kept while it grows, %', 'percent'),
    rate('femalesPerMale', 'Females to a male'),
    rate('maleLifeYears', 'A male serves, years'),
  ],
}

const purchase: KindWords = {
  kind: 'purchases',
  one: 'purchase',
  add: 'Add a purchase',
  purpose: 'Bought out of the farm’s own cash: on a date, or as soon as cash allows with the reserve intact.',
  fields: [
    { name: 'name', label: 'What', kind: 'text', group: 'The purchase' },
    { name: 'cost', label: 'Cost', kind: 'money', group: 'The purchase' },
    {
      name: 'timing',
      label: 'When',
      kind: 'choice',
      options: [
        { value: 'when cash allows', label: 'As soon as farm cash allows' },
        { value: 'dated', label: 'On its date' },
      ],
      group: 'The purchase',
    },
    { name: 'month', label: 'Date, or earliest month', kind: 'month', group: 'The purchase' },
    {
      name: 'addsCash',
      label: 'Farm cash it adds, dollars',
      hint: twelve,
      kind: 'seasonal',
      group: 'What it does',
    },
    { name: 'savesHours', label: 'Hours it saves', hint: twelve, kind: 'seasonal', group: 'What it does' },
    { name: 'worksAfterMonths', label: 'Works after, months', kind: 'whole', group: 'What it does' },
    {
      name: 'for',
      label: 'Bought for',
      hint: 'Counts in the payback of this line',
      kind: 'line',
      optional: true,
      group: 'What it does',
    },
    { name: 'usefulYears', label: 'Lasts, years', kind: 'quantity', group: 'What it does' },
    { name: 'valueAtEnd', label: 'Worth at the end', kind: 'money', group: 'What it does' },
    {
      name: 'assetClass',
      label: 'Depreciation class',
      kind: 'choice',
      options: asOptions(assetClasses),
      group: 'Tax',
    },
    {
      name: 'section179Share',
      label: 'Written off at once under section 179, %',
      kind: 'percent',
      group: 'Tax',
    },
  ],
}

const overhead: KindWords = {
  kind: 'overheads',
  one: 'overhead',
  add: 'Add an overhead',
  purpose: 'Costs and hours that fall whatever is grown: insurance, repairs, accounts.',
  fields: [
    { name: 'name', label: 'Name', kind: 'text', group: 'The overhead' },
    { name: 'costs', label: 'Costs, dollars', hint: twelve, kind: 'seasonal', group: 'The overhead' },
    { name: 'hours', label: 'Hours', hint: twelve, kind: 'seasonal', group: 'The overhead' },
    { name: 'start', label: 'Starts in', kind: 'month', optional: true, group: 'The overhead' },
    { name: 'end', label: 'Ends after', kind: 'month', optional: true, group: 'The overhead' },
    { name: 'scheduleFLine', label: 'Schedule F line', kind: 'text', group: 'The overhead' },
  ],
}

const loan: KindWords = {
  kind: 'loans',
  one: 'loan',
  add: 'Add a loan',
  purpose: 'Paid in level monthly payments. The farm borrows only what stands here.',
  fields: [
    { name: 'name', label: 'Name', kind: 'text', group: 'The loan' },
    { name: 'principal', label: 'Owed at the start', kind: 'money', group: 'The loan' },
    { name: 'yearlyRate', label: 'Yearly rate, %', kind: 'percent', group: 'The loan' },
    { name: 'months', label: 'Monthly payments', kind: 'whole', group: 'The loan' },
    {
      name: 'start',
      label: 'Starts in',
      hint: 'The first payment is a month later',
      kind: 'month',
      group: 'The loan',
    },
    {
      name: 'drawn',
      label: 'Its money comes in then (else it is owed already)',
      kind: 'checkbox',
      group: 'The loan',
    },
  ],
}

export const farmKinds: Readonly<Record<FarmKind, KindWords>> = {
  enterprises: enterprise,
  markets: market,
  herds: herd,
  purchases: purchase,
  overheads: overhead,
  loans: loan,
}
