// The words of the pages: our own, those of the trade, and those of law and agencies, each group by the alphabet.
const ours = {
  barter:
    'Goods of the farm for something that house or farm would have paid for. It is income of the farm at what the goods sell for, and a cost of whoever got it. No money moves. It is written in the notebook and booked at the table.',
  batch: 'One lot of an enterprise from its start to its last sale: 150 broilers, a litter, a season’s bed.',
  'bad year':
    'A named one that the plan must survive: a lost market, a bad season, a premium jump, an injury, a fall of the stock market as you slow down, a death. The built-in ones begin in the month of the next two years in which they hurt most.',
  'carry month':
    'The first month from which the farm’s draws, less what the household puts into the farm, cover all household costs for twelve months running and keep doing so to the first slower year, where draws fall by the plan, or to the end of a plan without one.',
  crossing:
    'Any movement of value between two sides. It is recorded once and lands in both sides’ books, each of which balances by itself.',
  cushion:
    'The savings that must be ready as the first slower year begins, so that the plan lasts from then on.',
  'house money in the farm':
    'Contributions less draws less reimbursements, since any date. Below zero the farm has paid the house more than it got.',
  'how sure': 'In how many of a hundred simulations an answer holds.',
  'in step':
    'Stock, markets, land, feed and hours fit each other in every season of a year: nothing is grown that cannot be sold, fed or looked after.',
  'income room':
    'How much more can be earned in a year before you go over a limit where the next dollar costs more than a dollar.',
  lever:
    'A figure of the plan that can be tried out beside the projection, and is kept only when you save it.',
  mix: 'How many units of each enterprise, and how many market days, fit into the hours of a phase.',
  'mixed receipt': 'One purchase that serves both sides, split line by line.',
  'months left': 'Months until spendable savings fall below the floor.',
  'paid by the farm':
    'The share of household costs (living, care, loan payments, premiums, taxes) that the farm’s draws, less what the household put into the farm, paid over the trailing twelve months.',
  percentile:
    'The value that so many of a hundred simulations stay under: a tenth of them lie below the 10th percentile.',
  phase: 'A stretch of the plan with its own cap on weekly hours and its own farm.',
  projection: 'The plan as expected, month by month.',
  revision: 'The plan as it was saved once. All are kept, and each can be gone back to.',
  seed: 'A number that fixes chance: the same seed gives the same simulations.',
  side: 'One of the separate sets of books: the farm, the household, and each side venture.',
  simulation:
    'The plan in one simulated future: investments, prices, seasons, premiums, care and lengths of life vary by chance, within what the plan’s chance settings say. One of many runs.',
  skipped: 'A bank transaction that you chose not to book.',
  'slower year': 'A year of the plan with a cap on weekly hours below the one before.',
  'today’s dollars':
    'An amount of the plan as what it buys at this month’s prices, by the rise of prices that the plan expects. Dollars of each year are what will be paid and held then.',
  spread: 'How far a figure that varies by chance lies from its mean, as a rule: its standard deviation.',
  transaction: 'One amount on a bank statement, in or out, as the bank wrote it.',
  'unmet costs':
    'Costs that nothing is left to pay, added up from the month in which money runs out. They are shown apart from savings, which cannot fall below what there is.',
} as const

const ofTheTrade = {
  account:
    'A place in the books where one kind of thing is counted: a bank account, a loan, a kind of income or cost.',
  'accrual adjustment':
    'What changes cash figures into those of the year’s work: feed and crops on hand, bills not yet paid, money not yet received.',
  'benchmark plan':
    'The second-cheapest silver plan of the marketplace for the same people. The premium tax credit is measured by it, whatever plan is chosen.',
  'break-even': 'The price or the yield at which an enterprise just pays its costs.',
  'close a month':
    'Lock a month so that nothing in it changes any more. A mistake found later is corrected by an entry in an open month.',
  'children’s program (CHIP)':
    'The state’s coverage of children above the Medicaid limit. It may ask a small premium of its own.',
  credit:
    'The right-hand side of an entry: what lowers an asset or a cost, or raises a debt, equity or income.',
  debit:
    'The left-hand side of an entry: what raises an asset or a cost, or lowers a debt, equity or income.',
  'deferred tax':
    'Tax that would be due if what is owned were sold at its market value. It is taken off what the farm is worth.',
  depreciation: 'The part of what a thing cost that one year of its use takes up.',
  'emergency fund':
    'Months of household costs that are kept in savings before side income goes to retirement accounts. The floor is a part of it.',
  enterprise: 'One line of the farm’s work with a budget of its own: a crop, a flock, the hives.',
  'enterprise budget':
    'Sales, direct costs and hours of one enterprise, by unit and month: what it is expected to bring and to take.',
  entry: 'What happened on one day, in two lines or more that add up to zero.',
  floor: 'Savings that are not to be spent. Below it no months are left.',
  'gross margin':
    'An enterprise’s sales less its direct costs: what is left for overheads and for the people who work.',
  ledger: 'All the accounts of one side with everything booked on them.',
  market:
    'A place where the farm sells: a market day, a stand, pick-ups. It has a capacity, costs and hours of its own.',
  'opening balances': 'What each account held on the first day of the books.',
  overhead: 'A cost or hours that fall whatever is grown: insurance, repairs, bookkeeping.',
  'owner’s contribution': 'Money the household puts into the farm or a venture, for good.',
  'owner’s draw':
    'Money the household takes out of the farm or a venture, for good. It is not a cost of the farm and not income of the household.',
  'owner’s equity': 'What a side owns less what it owes.',
  payback: 'The time until what a thing brings in has returned what it cost.',
  'plow back': 'To leave surplus in the farm for stock, tools and buildings in place of drawing it.',
  posting: 'One line of an entry: an amount on an account.',
  reconcile: 'Check the lines of an account against the bank’s statement until both balances agree.',
  reimbursement: 'The farm pays the household back for something it bought for the farm.',
  reserve: 'Cash that the farm keeps: below it the farm buys nothing and gives no draw.',
  'return to labor':
    'What is left of sales after all costs but the couple’s own work, by the hour of that work.',
  runway: 'How long savings carry the household, month by month.',
  'schedule (of draws)': 'How much is drawn each month, and from when.',
  'sorting rule': 'What you chose for a payee before, kept to propose the same for the next one like it.',
  'spendable savings':
    'Household money that can be spent now: accounts marked as spendable, less what is owed on cards. In the projection tax owed so far is taken off as well.',
  'standing transfer':
    'A crossing that comes back every month. It waits on Now until you record it, or is recorded automatically.',
  statement: 'The bank’s list of what went in and out of an account, as a file or on paper.',
  'tax basis': 'What a thing cost, less what was written off for tax. What it sells for above that is gain.',
  trip: 'One market day, or one round of deliveries, with its hours, miles and fees.',
  unit: 'What an enterprise is counted in: a bed, a hive, a share, a bird.',
  'winter feed':
    'Hay and other feed for the months without pasture, in the measure that you use: bales or tons, the same for all herds.',
  'working capital': 'What can be turned into cash within a year less what must be paid within it.',
} as const

const ofLaw = {
  'adjusted gross income (AGI)':
    'Income on the tax return after a few deductions and before the standard or itemized one. Many limits go by it.',
  'bonus depreciation':
    'A part of what a thing cost that the law lets a farm deduct in its first year, before the rest is spread over years.',
  'cost sharing':
    'What you pay of a bill yourself: deductible, copay, coinsurance. On a silver plan a low income lowers it.',
  'estimated tax':
    'Tax paid during the year on income from which nothing is withheld. Farmers have one date in place of four.',
  'farm optional method':
    'Self-employment tax on two thirds of gross farm income in a poor year: more tax now, and a year that counts for Social Security.',
  'filing status':
    'How a couple or a person files the tax return: jointly, alone, as head of a household. Brackets and limits follow from it.',
  'Form 1095-A':
    'The marketplace’s yearly statement of premiums and of the credit paid ahead. The tax return needs it.',
  'health savings account (HSA)':
    'Savings for care with a deduction, for those on a health plan that qualifies.',
  'household income':
    'Income as the marketplace counts it: adjusted gross income with what is left out of it added back.',
  marketplace:
    'Where a household without coverage from work buys a health plan, with the premium tax credit if its income allows.',
  Medicaid:
    'The state’s coverage for low incomes. It looks at the present month; not every state covers all adults.',
  Medicare: 'Federal health coverage from 65.',
  'federal poverty level (FPL)':
    'The federal poverty guideline for a household’s size. Medicaid, the children’s program and the premium tax credit are measured by it.',
  premium:
    'What health coverage costs each month, before or after the premium tax credit; the page says which.',
  'premium tax credit':
    'The federal tax credit that pays a part of a marketplace premium, by household income and the benchmark plan.',
  'required distribution':
    'What must be taken out of a traditional retirement account each year from a certain age on, and is taxed.',
  'Roth account': 'Retirement savings from taxed money: what comes out later is not taxed, within rules.',
  'saver’s match': 'What the Treasury adds from 2027 on to retirement savings of those with low income.',
  'Schedule F': 'The form of the tax return for profit or loss from farming.',
  'section 179': 'The choice to deduct what a thing cost at once in place of over its years, within limits.',
  'self-employment tax':
    'Social Security and Medicare tax on the profit of one’s own business, paid in place of what an employer would withhold.',
  'SEP and solo 401(k)': 'Retirement accounts for the self-employed; how much may go in depends on profit.',
  'Social Security':
    'The federal pension earned by work that was taxed for it. The age at which it is claimed decides how much it pays.',
} as const

export type Word = keyof typeof ours | keyof typeof ofTheTrade | keyof typeof ofLaw

export interface GlossaryWord {
  word: string
  from: 'ours' | 'trade' | 'law'
  means: string
}

const listed = (group: Readonly<Record<string, string>>, from: GlossaryWord['from']): GlossaryWord[] =>
  Object.entries(group)
    .toSorted(([one], [other]) => one.localeCompare(other, 'en'))
    .map(([word, means]) => ({ word, from, means }))

/** In their order, which is made when it is asked for: other pages lead to single words. */
export const words = (): readonly GlossaryWord[] => [
  ...listed(ours, 'ours'),
  ...listed(ofTheTrade, 'trade'),
  ...listed(ofLaw, 'law'),
]

/** Where a word is explained. */
export const wordAddress = (word: Word): string => `/settings/words#${wordId(word)}`

export const wordId = (word: string): string => `word-${word.replaceAll(/\W+/g, '-')}`
