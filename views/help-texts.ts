// How each page is used, in two or three sentences, and the words on it that the glossary explains.
import { formHelpTexts, type HelpText } from './form-help-texts.ts'

const texts = {
  now: {
    says: [
      'Look here once a month. On top are months left as planned, in a bad year and one time in ten; then what last month changed, and what is due. Every figure opens to what it is made of.',
      'Months left come from the plan on Runway, started from what the books hold today. The table “Months left at recent spending”, there once the books hold three whole months, takes the books alone, down to the plan’s floor; only pay and side income that the plan ends stop there.',
      'The small line beside a figure is its last twelve months.',
    ],
    words: [
      'months left',
      'floor',
      'carry month',
      'paid by the farm',
      'house money in the farm',
      'spendable savings',
      'bad year',
      'standing transfer',
    ],
  },
  books: {
    says: [
      'Most entries come from the bank: read in a statement, then sort its transactions. Cash and what the bank does not see you record by hand.',
      'Money between house and farm is never an entry on one side: record it as a crossing, on the line in the middle.',
    ],
    words: ['side', 'ledger', 'account', 'entry', 'posting', 'crossing', 'mixed receipt'],
  },
  entry: {
    says: [
      'Choose whose books it belongs to, then whether money went out, came in, or moved between accounts of the same side.',
      'One bill for house and farm together is a mixed receipt. A month that is closed takes no entry any more: date it in an open one.',
    ],
    words: ['entry', 'debit', 'credit', 'enterprise', 'mixed receipt'],
  },
  statements: {
    says: [
      'Download the account’s file from your bank (OFX or CSV), choose it here and look at it. The next page shows which transactions are new, which were read in before and which are doubtful; only then is anything kept. Several files, or one file with several accounts, are shown as one list, and what is clear is read in by one press.',
      'What is in doubt is asked there: signs, columns, or whether it is this account’s file. “Undo” undoes a file that was read in wrongly. It cannot once any of it lies in a closed month or was reconciled.',
    ],
    words: ['statement', 'reconcile', 'sorting rule'],
  },
  month: {
    says: [
      'Go from the top: read the bank’s files, book what is known and sort the rest, record transfers, reconcile, close. You can stop at any step; what is done stays done.',
      'What books and bank agree on takes one press. What does not is listed, with the page where you correct it. A month is closed on all sides together, and earlier open months with it.',
    ],
    words: ['statement', 'sorting rule', 'standing transfer', 'reconcile', 'close a month'],
  },
  sorting: {
    says: [
      'Each row is a payee with all that waits of it: check where it goes, uncheck what you are not sure of, and book what is checked. Choosing a place checks the row; what you chose stays, wherever you go. Under a row are its transactions: leave one out, choose for each, or split a bill for house and farm by amount or percent. The crossing of a split bill is recorded with it.',
      'By keys, from a row’s check box: up and down, Enter accepts, c finds a place by a few letters, s splits, x skips.',
      'A transaction you skip books nothing; it can be brought back.',
    ],
    words: ['sorting rule', 'crossing', 'skipped'],
  },
  reconcile: {
    says: [
      'Have the bank’s statement at hand. Choose its account, its last day and its balance, then check each line that is on it. When the difference is nothing, finish.',
      'A line that is only in the books comes on a later statement, or is wrong; one that is only on the statement must be read in or recorded.',
      'What comes into the books later, dated in days that were reconciled, is shown here, on Now and when you close the month. Correct it, or reconcile that statement again.',
    ],
    words: ['reconcile', 'statement', 'close a month'],
  },
  close: {
    says: [
      'Close a month once its transactions are sorted and its accounts reconciled. The list says what is still open; you may close all the same where it says “To check”.',
      'When the household’s month is closed, the forecast of the months after it is saved. Plan against the books compares with it later.',
    ],
    words: ['close a month', 'reconcile'],
  },
  crossings: {
    says: [
      'Choose what crossed, say how much and between which accounts: both sides’ books are written at once. Set up what comes back every month as a standing transfer.',
      'House money in the farm is how much of the household’s savings is there; below zero the farm has paid the house more than it got.',
    ],
    words: [
      'crossing',
      'owner’s draw',
      'owner’s contribution',
      'reimbursement',
      'house money in the farm',
      'owner’s equity',
      'standing transfer',
    ],
  },
  houseMoney: {
    says: [
      'Each month: what the household put into the farm, and what the farm paid back or paid out. The line is what of the household’s money is still in the farm.',
      'Below zero the farm has paid the house more than it got. Open a month’s name to see its crossings.',
    ],
    words: ['house money in the farm', 'crossing', 'owner’s draw', 'owner’s contribution', 'reimbursement'],
  },
  crossingHistory: {
    says: [
      'Every crossing, newest first, with the account it left and the account it came to. Choose a kind to see only draws, or only contributions.',
      'Wrong amount or account? Open the crossing and reverse it: both sides’ books are corrected together.',
    ],
    words: ['crossing', 'owner’s draw', 'owner’s contribution', 'reimbursement', 'standing transfer'],
  },
  runway: {
    says: [
      'The sentence and the picture on top say how savings go as planned. Change a lever, and both follow. Nothing is saved until you keep it; every save can be undone under Revisions.',
      'Read the bad years next: each is one run of the same plan. “How sure” runs the plan in a thousand simulations, “Questions” finds what to change.',
      'To try out more than levers, copy the plan under Compare plans and open the copy: what you change is then changed in it alone.',
    ],
    words: [
      'runway',
      'projection',
      'lever',
      'schedule (of draws)',
      'months left',
      'floor',
      'carry month',
      'bad year',
      'paid by the farm',
      'today’s dollars',
      'unmet costs',
    ],
  },
  chance: {
    says: [
      'Press the button and wait; a thousand simulations take up to a minute. Read first in how many of them the plan holds, then how early and how late things may happen.',
      'To compare two plans, keep the same seed: both then meet the same luck.',
      'Premiums vary by a spread you type or as your county’s own years did: choose it in the plan’s chance settings, which show those years.',
    ],
    words: ['simulation', 'seed', 'how sure'],
  },
  questions: {
    says: [
      'Choose a question and press Ask. It tries many answers in many simulations and gives the one that holds as surely as you ask. That takes up to a minute; the page shows how far it is.',
    ],
    words: ['simulation', 'how sure', 'plow back', 'cushion', 'income room'],
  },
  cover: {
    says: [
      'Look here before you earn or draw more at a year’s end. The picture shows what coverage costs a month at each income and where you stand; the table says how far each limit is and what going over it costs.',
      'Try another year or income with the fields below the picture; nothing is saved by it. Who is covered and the premiums are entered once, under Premiums.',
    ],
    words: [
      'marketplace',
      'premium',
      'premium tax credit',
      'benchmark plan',
      'household income',
      'federal poverty level (FPL)',
      'income room',
      'Medicaid',
      'Medicare',
    ],
  },
  coverCredit: {
    says: [
      'Look here to see what the premium tax credit pays and what you pay yourselves. The table goes on from today’s farm profit: what more profit leaves you after tax, premiums and lost credit.',
      'Where a row leaves you less than the one before, earning that much more costs you. Farm profit can still move: a purchase before the year ends, or a payment into a retirement account, lowers it.',
    ],
    words: [
      'premium tax credit',
      'benchmark plan',
      'household income',
      'federal poverty level (FPL)',
      'cost sharing',
    ],
  },
  coverYears: {
    says: [
      'A row a person, a column a year: who is on the marketplace, on a program of the state, at work, or on Medicare. A gap is named where it begins.',
      'The table has the premium and the credit of each year. Change who is covered, and from when, under Premiums.',
    ],
    words: ['marketplace', 'Medicaid', 'Medicare', 'premium', 'premium tax credit'],
  },
  coverTax: {
    says: [
      'It takes the year’s income and costs from the books so far, works out the tax on them, and takes off what is withheld or paid ahead. What is left is what to set aside today.',
      'It grows with each month that is booked. Tax paid or withheld that the books do not hold is entered on Year pack, under payments of tax, or at setup under This year so far.',
    ],
    words: ['estimated tax', 'household income', 'premium tax credit'],
  },
  coverPlace: {
    says: [
      'Choose state and county in Settings, People and place. From them come the marketplace’s published premiums, and up to which income a program of the state covers adults or children.',
      'The figures are published ones: your own offers and the state’s decision count. Ask the marketplace or the state before you rely on them.',
    ],
    words: ['marketplace', 'benchmark plan', 'Medicaid', 'federal poverty level (FPL)'],
  },
  batches: {
    says: [
      'Start a batch when it begins, and choose it beside the account when you enter or sort its costs and sales; what was booked without it is tied on its page.',
      'Note losses, weights and sales there. The page says what one cost, what an hour brought, and at what price the rest would cover its costs.',
    ],
    words: ['batch', 'enterprise', 'return to labor'],
  },
  notebook: {
    says: [
      'Write things down as they happen, on a phone too: what you chose last stays chosen, so that an hour takes two or three presses.',
      'Hours, head counts and miles count at once. Goods that left without money, and cash and fee of a market day, wait for the table at home: there one press books each.',
    ],
    words: ['batch', 'barter', 'enterprise'],
  },
  farm: {
    says: [
      'Describe each enterprise by its unit (a bed, a share, a hive), its markets and its stock. The page then says what an hour of each brings, and what does not fit.',
      'Put what you want to buy in order: each thing is bought when the farm’s own cash allows it above the reserve.',
    ],
    words: [
      'enterprise',
      'enterprise budget',
      'gross margin',
      'overhead',
      'return to labor',
      'break-even',
      'market',
      'in step',
      'payback',
      'reserve',
    ],
  },
  slowerYears: {
    says: [
      'Add a phase: from when on, and how many hours each of you gives. Then “Mix, cushion, claims” says in brief which enterprises keep the net at those hours, what savings must be ready by then, and when to claim Social Security.',
      'Its own page has all of it.',
    ],
    words: ['slower year', 'phase', 'mix', 'cushion', 'Social Security', 'Medicare', 'required distribution'],
  },
  slowerAnswers: {
    says: [
      'A mix says which enterprises keep the net at the hours of its phase, and can be taken into the plan. “Options” asks it otherwise: fewest hours, something kept as it is, a path by years.',
      'Below are the savings that must be ready by the first slower year, what each claim age leaves, and what happens if one of you cannot work.',
    ],
    words: ['mix', 'phase', 'cushion', 'Social Security'],
  },
  keptMoney: {
    says: [
      'Each building is filled to what is there. The frames in it are what is kept back: when the fill reaches the top of a frame, that kind is whole.',
      'The floor and the emergency fund are set with the household and the savings of the plan, the reserve with the farm’s basics. The cushion is worked out.',
    ],
    words: ['floor', 'emergency fund', 'reserve', 'cushion'],
  },
  yearPack: {
    says: [
      'Choose the year and settle what is listed under “Before you print”. Then look at all sheets and print them, or save them as PDF. Each statement has an address of its own and its table as CSV.',
    ],
    words: [
      'Schedule F',
      'owner’s equity',
      'depreciation',
      'section 179',
      'working capital',
      'estimated tax',
      'filing status',
      'self-employment tax',
    ],
  },
  ...formHelpTexts,
} satisfies Record<string, HelpText>

export type HelpKey = keyof typeof texts

export const helpTexts: Readonly<Record<HelpKey, HelpText>> = texts
