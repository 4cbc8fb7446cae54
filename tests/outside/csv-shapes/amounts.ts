// How banks write which way money went, and how much: signs, marks, columns, thousands, currencies.
import { rows, type Shape } from './shape.ts'

export const amountShapes: readonly Shape[] = [
  {
    name: 'one column, money out with a minus',
    file: rows(
      'Date,Description,Amount',
      '01/13/2025,HOLLOW FEED MILL,-45.67',
      '01/28/2025,MARKET DEPOSIT,300.00',
    ),
    lines: [
      ['2025-01-13', -4567, 'HOLLOW FEED MILL'],
      ['2025-01-28', 30_000, 'MARKET DEPOSIT'],
    ],
  },
  {
    name: 'debit and credit apart, with the balance after each',
    file: rows(
      'Posting Date,Description,Debit,Credit,Balance',
      '01/13/2025,HOLLOW FEED MILL,45.67,,954.33',
      '01/28/2025,MARKET DEPOSIT,,300.00,1254.33',
    ),
    lines: [
      ['2025-01-13', -4567, 'HOLLOW FEED MILL', { balance: 95_433 }],
      ['2025-01-28', 30_000, 'MARKET DEPOSIT', { balance: 125_433 }],
    ],
    closing: { balance: 125_433, asOf: '2025-01-28' },
  },
  {
    name: 'debits with a minus in a column of their own',
    file: rows(
      'Date,Payee,Debit,Credit',
      '01/13/2025,HOLLOW FEED MILL,-45.67,',
      '01/28/2025,MARKET DEPOSIT,,300.00',
    ),
    lines: [
      ['2025-01-13', -4567, 'HOLLOW FEED MILL'],
      ['2025-01-28', 30_000, 'MARKET DEPOSIT'],
    ],
  },
  {
    name: 'withdrawals and deposits with dollar signs, thousands and 0.00 for none',
    file: rows(
      'Date,Transaction Description,Withdrawals,Deposits',
      '01/13/2025,TRACTOR DOWN PAYMENT,"$1,245.67",$0.00',
      '01/28/2025,WHOLESALE ACCOUNT,$0.00,"$12,300.00"',
    ),
    lines: [
      ['2025-01-13', -124_567, 'TRACTOR DOWN PAYMENT'],
      ['2025-01-28', 1_230_000, 'WHOLESALE ACCOUNT'],
    ],
  },
  {
    name: 'paid out and paid in, a month of money out only',
    file: rows(
      'Date,Details,Paid out,Paid in',
      '01/13/2025,HOLLOW FEED MILL,45.67,',
      '01/14/2025,CREEK GAS,60.00,',
    ),
    lines: [
      ['2025-01-13', -4567, 'HOLLOW FEED MILL'],
      ['2025-01-14', -6000, 'CREEK GAS'],
    ],
  },
  {
    name: 'a DR and CR column',
    file: rows(
      'Date,Narrative,Amount,DR/CR',
      '01/13/2025,HOLLOW FEED MILL,45.67,DR',
      '01/28/2025,MARKET DEPOSIT,300.00,CR',
    ),
    lines: [
      ['2025-01-13', -4567, 'HOLLOW FEED MILL'],
      ['2025-01-28', 30_000, 'MARKET DEPOSIT'],
    ],
  },
  {
    name: 'D and C for the two directions',
    file: rows(
      'Date,Description,D/C,Amount',
      '01/13/2025,HOLLOW FEED MILL,D,45.67',
      '01/28/2025,MARKET DEPOSIT,C,300.00',
    ),
    lines: [
      ['2025-01-13', -4567, 'HOLLOW FEED MILL'],
      ['2025-01-28', 30_000, 'MARKET DEPOSIT'],
    ],
  },
  {
    name: 'a type column that says debit or credit, beside the account’s number',
    file: rows(
      'Account Number,Post Date,Type,Amount,Description',
      '40001177,2025-01-13,Debit,45.67,HOLLOW FEED MILL',
      '40001177,2025-01-28,Credit,300.00,MARKET DEPOSIT',
    ),
    lines: [
      ['2025-01-13', -4567, 'HOLLOW FEED MILL'],
      ['2025-01-28', 30_000, 'MARKET DEPOSIT'],
    ],
  },
  {
    name: 'a type column beside amounts that bear their own sign',
    file: rows(
      'Date,Type,Description,Amount',
      '01/13/2025,DEBIT,HOLLOW FEED MILL,-45.67',
      '01/28/2025,CREDIT,MARKET DEPOSIT,300.00',
    ),
    lines: [
      ['2025-01-13', -4567, 'HOLLOW FEED MILL'],
      ['2025-01-28', 30_000, 'MARKET DEPOSIT'],
    ],
  },
  {
    name: 'the sign in a column of its own',
    file: rows(
      'Date,Sign,Amount,Description',
      '01/13/2025,-,45.67,HOLLOW FEED MILL',
      '01/28/2025,+,300.00,MARKET DEPOSIT',
    ),
    lines: [
      ['2025-01-13', -4567, 'HOLLOW FEED MILL'],
      ['2025-01-28', 30_000, 'MARKET DEPOSIT'],
    ],
  },
  {
    name: 'CR and DR behind the amount',
    file: rows(
      'Date,Description,Amount',
      '01/13/2025,HOLLOW FEED MILL,45.67 DR',
      '01/28/2025,MARKET DEPOSIT,"1,300.00 CR"',
    ),
    lines: [
      ['2025-01-13', -4567, 'HOLLOW FEED MILL'],
      ['2025-01-28', 130_000, 'MARKET DEPOSIT'],
    ],
  },
  {
    name: 'a minus behind the amount',
    file: rows(
      'Date,Description,Amount',
      '01/13/2025,HOLLOW FEED MILL,45.67-',
      '01/28/2025,MARKET DEPOSIT,300.00',
    ),
    lines: [
      ['2025-01-13', -4567, 'HOLLOW FEED MILL'],
      ['2025-01-28', 30_000, 'MARKET DEPOSIT'],
    ],
  },
  {
    name: 'money out in brackets, dollar signs within',
    file: rows(
      'Date,Description,Amount',
      '01/13/2025,HOLLOW FEED MILL,($45.67)',
      '01/28/2025,MARKET DEPOSIT,$300.00',
    ),
    lines: [
      ['2025-01-13', -4567, 'HOLLOW FEED MILL'],
      ['2025-01-28', 30_000, 'MARKET DEPOSIT'],
    ],
  },
  {
    name: 'a currency before the amount, the minus before or behind it',
    file: rows(
      'Date,Description,Amount',
      '01/13/2025,HOLLOW FEED MILL,-USD 45.67',
      '01/14/2025,CREEK GAS,USD -60.00',
      '01/28/2025,MARKET DEPOSIT,USD 300.00',
    ),
    lines: [
      ['2025-01-13', -4567, 'HOLLOW FEED MILL'],
      ['2025-01-14', -6000, 'CREEK GAS'],
      ['2025-01-28', 30_000, 'MARKET DEPOSIT'],
    ],
  },
  {
    name: 'more than two decimals: noughts are nothing, a fraction of a cent is rounded',
    file: rows(
      'Date,Description,Amount',
      '01/13/2025,CREEK GAS 12.5 GAL,-45.6700',
      '01/28/2025,INTEREST,0.0150',
      '01/31/2025,FEED BY WEIGHT,-12.345',
    ),
    lines: [
      ['2025-01-13', -4567, 'CREEK GAS 12.5 GAL'],
      ['2025-01-28', 2, 'INTEREST'],
      ['2025-01-31', -1235, 'FEED BY WEIGHT'],
    ],
  },
  {
    name: 'gross, fee and net of a card reader’s account',
    file: rows(
      'Date,Name,Gross,Fee,Net,Balance',
      '01/13/2025,Market customer A,100.00,-3.20,96.80,96.80',
      '01/14/2025,Market customer B,50.00,-1.75,48.25,145.05',
      '01/20/2025,Transfer to bank,-145.05,0.00,-145.05,0.00',
    ),
    lines: [
      ['2025-01-13', 9680, 'Market customer A'],
      ['2025-01-14', 4825, 'Market customer B'],
      ['2025-01-20', -14_505, 'Transfer to bank'],
    ],
  },
  {
    name: 'a card whose charges are written without a sign',
    isCard: true,
    file: rows(
      'Transaction Date,Post Date,Description,Category,Type,Amount',
      '01/12/2025,01/13/2025,HOLLOW FEED MILL,Supplies,Sale,45.67',
      '01/13/2025,01/15/2025,CREEK GAS,Fuel,Sale,60.00',
      '01/20/2025,01/20/2025,PAYMENT THANK YOU,,Payment,-105.67',
    ),
    lines: [
      ['2025-01-13', -4567, 'HOLLOW FEED MILL'],
      ['2025-01-15', -6000, 'CREEK GAS'],
      ['2025-01-20', 10_567, 'PAYMENT THANK YOU'],
    ],
  },
  {
    name: 'amounts in whole dollars',
    file: rows('Date,Description,Amount', '01/13/2025,RENT OF PASTURE,-450', '01/28/2025,MARKET DEPOSIT,300'),
    lines: [
      ['2025-01-13', -45_000, 'RENT OF PASTURE'],
      ['2025-01-28', 30_000, 'MARKET DEPOSIT'],
    ],
  },
]
