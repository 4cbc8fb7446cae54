// The words we use, in one place: those of the trade and our own.
import { PageTitle } from '../layout.tsx'

export const words: readonly { word: string; means: string; isOurs: boolean }[] = [
  {
    word: 'side',
    isOurs: true,
    means: 'One of the separate sets of books: the farm, the household, and each side venture.',
  },
  {
    word: 'crossing',
    isOurs: true,
    means:
      'Any movement of value between two sides. It is recorded once and lands in both sides’ books, each of which balances by itself.',
  },
  { word: 'mixed receipt', isOurs: true, means: 'One purchase that serves both sides, split line by line.' },
  {
    word: 'leak',
    isOurs: true,
    means:
      'What the household has put into the farm, net, since any date: contributions less draws less reimbursements.',
  },
  { word: 'months left', isOurs: true, means: 'Months until spendable savings fall below the floor.' },
  {
    word: 'carry month',
    isOurs: true,
    means:
      'The first month from which the farm’s draws cover all household costs for twelve months running and keep doing so to the first slower year, where draws fall by the plan, or to the end of a plan without one.',
  },
  {
    word: 'cover ratio',
    isOurs: true,
    means: 'Draws over household costs (living, premiums, taxes) of the trailing twelve months.',
  },
  {
    word: 'storm',
    isOurs: true,
    means:
      'A named bad year that the plan must survive: a lost market, a bad season, a premium jump, an injury, a market crash at the slow-down.',
  },
  {
    word: 'slower year',
    isOurs: true,
    means: 'A year of the plan with a cap on weekly hours below the one before.',
  },
  {
    word: 'cushion',
    isOurs: true,
    means:
      'The savings that must stand ready at the first slower year so that the plan lasts, at a chosen confidence.',
  },
  {
    word: 'account',
    isOurs: false,
    means:
      'A place in the books where one kind of thing is counted: a bank account, a loan, a kind of income or cost.',
  },
  {
    word: 'close a month',
    isOurs: false,
    means:
      'Lock a month so that nothing in it changes any more. What is wrong is put right by an entry in an open month.',
  },
  {
    word: 'credit',
    isOurs: false,
    means:
      'The right-hand side of an entry: what lowers an asset or a cost, or raises a debt, equity or income.',
  },
  {
    word: 'debit',
    isOurs: false,
    means:
      'The left-hand side of an entry: what raises an asset or a cost, or lowers a debt, equity or income.',
  },
  {
    word: 'enterprise',
    isOurs: false,
    means: 'One line of the farm’s work with a budget of its own: a crop, a flock, the hives.',
  },
  {
    word: 'entry',
    isOurs: false,
    means: 'What happened on one day, in two lines or more that add up to zero.',
  },
  { word: 'floor', isOurs: false, means: 'Savings that are not to be spent. Below it no months are left.' },
  {
    word: 'owner’s contribution',
    isOurs: false,
    means: 'Money the household puts into the farm or a venture, for good.',
  },
  {
    word: 'owner’s draw',
    isOurs: false,
    means:
      'Money the household takes out of the farm or a venture, for good. It is not a cost of the farm and not income of the household.',
  },
  { word: 'owner’s equity', isOurs: false, means: 'What a side owns less what it owes.' },
  { word: 'posting', isOurs: false, means: 'One line of an entry: an amount on an account.' },
  {
    word: 'reconcile',
    isOurs: false,
    means: 'Tick the lines of an account against the bank’s statement until both balances agree.',
  },
  {
    word: 'reimbursement',
    isOurs: false,
    means: 'The farm pays the household back for something it bought for the farm.',
  },
  {
    word: 'reserve',
    isOurs: false,
    means: 'Cash a side keeps back: below it the farm buys nothing and gives no draw.',
  },
  { word: 'runway', isOurs: false, means: 'How long savings carry the household, month by month.' },
  { word: 'schedule (of draws)', isOurs: false, means: 'How much is drawn each month, and from when.' },
  {
    word: 'spendable savings',
    isOurs: false,
    means: 'Household money that can be spent now: accounts marked as spendable, less what is owed on cards.',
  },
  {
    word: 'statement',
    isOurs: false,
    means: 'The bank’s list of what went in and out of an account, as a file or on paper.',
  },
]

export const WordsPage = () => (
  <>
    <PageTitle purpose="The same words mean the same thing on every page.">Words we use</PageTitle>
    <h2>Our own</h2>
    <WordList ours />
    <h2>Of the trade</h2>
    <WordList ours={false} />
  </>
)

const WordList = ({ ours }: { ours: boolean }) => (
  <dl class="words">
    {words
      .filter((one) => one.isOurs === ours)
      .map((one) => (
        <div id={`word-${one.word.replaceAll(/\W+/g, '-')}`}>
          <dt>{one.word}</dt>
          <dd>{one.means}</dd>
        </div>
      ))}
  </dl>
)
