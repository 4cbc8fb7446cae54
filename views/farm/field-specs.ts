// The fields of the farm's forms as data: one list draws the form and reads it back into the plan.
import { assetClasses } from '#farm/farm-document.ts'
import { assetClasses as classNames, type FarmAssetClass } from '#rules/depreciation/recovery.ts'
import { asWords } from '../parts/as-words.ts'
import { type FarmKind, type KindWords, level, twelve } from './field-hints.ts'
import { herdWords } from './herd-fields.ts'
import { loanWords } from './loan-fields.ts'

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
      label: 'How far a season strays, percent',
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
      label: 'Customers who follow when a trip is dropped, percent',
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
      label: 'When run at all, at least this part of its trips, percent',
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
      options: assetClasses.map((value) => ({
        value,
        label: classNames[value as FarmAssetClass]?.label ?? asWords(value),
      })),
      group: 'Tax',
    },
    {
      name: 'section179Share',
      label: 'Written off at once under section 179, percent',
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

export const farmKinds: Readonly<Record<FarmKind, KindWords>> = {
  enterprises: enterprise,
  markets: market,
  herds: herdWords,
  purchases: purchase,
  overheads: overhead,
  loans: loanWords,
}
