// How the forms are used that ask for what a person must look up: where it is found, with an example; and the pages beside them.
import type { Word } from './settings/glossary.ts'

export interface HelpText {
  says: readonly string[]
  words: readonly Word[]
}

export const formHelpTexts = {
  planHousehold: {
    says: [
      'Open a living cost to change it; enter it by the month in today’s prices, like 820 for food. A cost of some months only, like property tax, names them: 4, 9.',
      'Birth dates are on the driver’s license, earnings and benefits on your Social Security statement (ssa.gov, my Social Security), pay and tax withheld on the pay slip.',
      'The floor is what you never want to spend, like six months of costs.',
    ],
    words: ['floor', 'spendable savings', 'Social Security'],
  },
  planHealth: {
    says: [
      'For the marketplace, who is covered and two premiums are enough; Health, Premiums asks for them as your marketplace shows them. Here the same premiums are for a person of 21.',
      'A premium that goes to nobody’s marketplace plan, like one through a job, is a line under Premiums: 310 a month. Care is what you pay of bills in a usual year, by the month.',
    ],
    words: ['marketplace', 'benchmark plan', 'premium', 'cost sharing', 'health savings account (HSA)'],
  },
  planSavings: {
    says: [
      'One row an account, with its balance as the plan begins; once the books hold it, theirs counts. The mix is how the money is invested: 60% stocks and 40% bonds, from the yearly statement.',
      'Savings are spent in the order given: cash first, retirement accounts late, as a rule, since they cost tax.',
    ],
    words: ['spendable savings', 'emergency fund', 'Roth account', 'required distribution'],
  },
  planDraw: {
    says: [
      'By steps: from January 2027, 3000 a month; from January 2028, 5000. The farm pays a draw only as far as its cash stays above its reserve.',
      'Try steps first with the levers on Runway: nothing is saved there until you keep it.',
    ],
    words: ['owner’s draw', 'schedule (of draws)', 'reserve', 'plow back'],
  },
  planTax: {
    says: [
      'Have last year’s return at hand: total tax is on Form 1040, line 24, adjusted gross income on line 11 (11a from 2025). What a loss or a deduction left over is on the forms named beside its field.',
      '“This year before the first month” is what had come in and been paid by then, as far as the books do not hold it.',
    ],
    words: ['adjusted gross income (AGI)', 'filing status', 'estimated tax', 'farm optional method'],
  },
  planGrowth: {
    says: [
      'Growth rates are by the year, like 2.5 for prices. Farm prices and costs go on top of prices in general: 0 means that they rise alike.',
      'Returns are before prices are taken off. One percent more or less of stocks changes late years most: try it as a lever first.',
    ],
    words: ['projection', 'premium'],
  },
  planChance: {
    says: [
      'Nothing has to be changed here. By default whole years of published history are put together by chance, around the growth that the plan expects.',
      'A spread of 18 for stocks means: in two of three years the return lies within 18 points of the average. An enterprise’s own spread is entered with the enterprise.',
      'Work lost by illness or accident is not counted until you enter a chance, like 2% a year.',
    ],
    words: ['simulation', 'spread', 'how sure'],
  },
  enterpriseForm: {
    says: [
      'Think of one unit: a bed, a hive, a share, a bird. Enter what one sells, costs and takes in hours in each month, like $820 a bed in July; or one total for the year.',
      'Published figures can be shown below the fields to begin with. Your own batches and hours later say what is true on your farm, under Plan and notebook.',
    ],
    words: ['enterprise', 'enterprise budget', 'unit', 'gross margin', 'spread'],
  },
  marketForm: {
    says: [
      'A trip is one market day, or one round of deliveries: 4 a month from May to October, say, with its hours, miles and stall fee.',
      'The most that one trip sells is what your best days took; the notebook’s market days tell it.',
    ],
    words: ['market', 'trip'],
  },
  purchaseForm: {
    says: [
      'Enter its price today and, if cash is to decide, from which month you want it. It is bought in the first month that leaves the reserve whole for a year.',
      'What it brings is cash added or hours saved in a year: a walk-in cooler that saves 40 hours, say. The class decides how its cost is written off; your preparer knows it.',
    ],
    words: ['payback', 'reserve', 'depreciation', 'section 179', 'bonus depreciation'],
  },
  phaseForm: {
    says: [
      'Say from which month on you work less, and how many hours a week each of you then gives, like 30 and 20.',
      'Then say what the farm is in that phase: fewer beds, one market. Or save it, and take the mix that Mix, cushion, claims works out.',
    ],
    words: ['slower year', 'phase', 'mix'],
  },
  compare: {
    says: [
      'Copy the plan, open the copy, change what you are thinking about, and come back: both are here side by side, with where they differ.',
      'Nothing of a copy touches Now. To live by it, put it in use.',
    ],
    words: ['projection', 'months left', 'carry month', 'revision'],
  },
  actual: {
    says: [
      'A row is one line of the household’s year: what was planned, what the books hold, and whether the difference helped savings. Start with the largest one.',
      'A suggestion below changes the plan by one press, and can be undone under Revisions.',
    ],
    words: ['months left', 'projection'],
  },
  revisions: {
    says: [
      'Open a number to see what that save changed. Going back to it makes a new revision, so that nothing in between is lost.',
    ],
    words: ['revision'],
  },
  rules: {
    says: [
      'A rule says: words of the bank, money in or out, on this account, go there. Words that come in every line, like “card purchase”, make a bad rule; a payee’s name makes a good one.',
      'A wrong proposal comes from one of these rules: open it and change where it goes, or archive it.',
    ],
    words: ['sorting rule', 'transaction'],
  },
  statementLook: {
    says: [
      'Look at the balance at the end: is it what the bank’s page shows? Then look at what is in doubt, and read the file in.',
      'With a CSV, say once which column is the day, the words and the amount; it is remembered for the next file of that account.',
    ],
    words: ['statement', 'transaction'],
  },
  yearEnd: {
    says: [
      'Do it once, on or about December 31. Walk the barn: count feed, stock and crops on hand, and enter what they would sell for.',
      'Bills not yet paid and money not yet received at the year’s end are in January’s mail. What you leave empty, the pack says it leaves out.',
    ],
    words: ['accrual adjustment', 'deferred tax', 'working capital'],
  },
  holding: {
    says: [
      'Have the bill at hand: what it cost, and the day it was put to use. A used thing may have another class than a new one.',
      'What earlier returns wrote off is on the last Form 4562, or on the depreciation list your preparer keeps.',
    ],
    words: ['depreciation', 'section 179', 'bonus depreciation', 'tax basis'],
  },
} satisfies Record<string, HelpText>
