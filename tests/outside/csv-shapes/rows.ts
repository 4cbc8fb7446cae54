// What banks write above, between and under the movements, and rows that are not movements yet.
import { rows, type Shape } from './shape.ts'

const feed = ['2025-01-13', -4567, 'HOLLOW FEED MILL'] as const
const deposit = ['2025-01-28', 30_000, 'MARKET DEPOSIT'] as const

export const rowShapes: readonly Shape[] = [
  {
    name: 'the bank’s name, the account and the period above the headings',
    file: rows(
      'Tarn Hollow Savings Bank',
      'Account:,Farm checking,40-1177',
      'Period:,01/01/2025 to 01/31/2025',
      '',
      'Date,Description,Amount',
      '01/13/2025,HOLLOW FEED MILL,-45.67',
      '01/28/2025,MARKET DEPOSIT,300.00',
    ),
    lines: [feed, deposit],
    leftOut: [1, 2, 3],
  },
  {
    name: 'a table of sums above the headings',
    file: rows(
      'Description,,Summary Amt.',
      'Beginning balance as of 01/01/2025,,"1,000.00"',
      'Total credits,,300.00',
      'Total debits,,-45.67',
      'Ending balance as of 01/31/2025,,"1,254.33"',
      '',
      'Date,Description,Amount,Running Bal.',
      '01/01/2025,Beginning balance as of 01/01/2025,,"1,000.00"',
      '01/13/2025,HOLLOW FEED MILL,-45.67,954.33',
      '01/28/2025,MARKET DEPOSIT,300.00,"1,254.33"',
    ),
    lines: [
      [...feed, { balance: 95_433 }],
      [...deposit, { balance: 125_433 }],
    ],
    leftOut: [1, 2, 3, 4, 5, 8],
    closing: { balance: 125_433, asOf: '2025-01-28' },
  },
  {
    name: 'totals under the movements',
    file: rows(
      'Date,Description,Debit,Credit',
      '01/13/2025,HOLLOW FEED MILL,45.67,',
      '01/28/2025,MARKET DEPOSIT,,300.00',
      ',Totals,45.67,300.00',
      'Closing balance,,,"1,254.33"',
    ),
    lines: [feed, deposit],
    leftOut: [4, 5],
  },
  {
    name: 'closing words under the movements',
    file: rows(
      'Date,Description,Amount',
      '01/13/2025,HOLLOW FEED MILL,-45.67',
      '01/28/2025,MARKET DEPOSIT,300.00',
      '',
      '"This list is no statement of account. Printed 2 transactions."',
    ),
    lines: [feed, deposit],
    leftOut: [5],
  },
  {
    name: 'the headings again for each month',
    file: rows(
      'Date,Description,Amount',
      '01/13/2025,HOLLOW FEED MILL,-45.67',
      'February 2025,,',
      'Date,Description,Amount',
      '02/03/2025,CREEK GAS,-60.00',
    ),
    lines: [feed, ['2025-02-03', -6000, 'CREEK GAS']],
    leftOut: [3, 4],
  },
  {
    name: 'no headings at all',
    file: rows('01/13/2025,-45.67,*,,HOLLOW FEED MILL', '01/28/2025,300.00,*,,MARKET DEPOSIT'),
    lines: [feed, deposit],
  },
  {
    name: 'a carried balance with a day and no amount, and a notice of 0.00',
    file: rows(
      'Date,Description,Amount,Balance',
      '01/01/2025,BALANCE FORWARD,,1000.00',
      '01/13/2025,HOLLOW FEED MILL,-45.67,954.33',
      '01/20/2025,FEE WAIVED,0.00,954.33',
      '01/28/2025,MARKET DEPOSIT,300.00,1254.33',
    ),
    lines: [feed, deposit],
    leftOut: [2, 4],
    closing: { balance: 125_433, asOf: '2025-01-28' },
  },
  {
    name: 'pending rows with the word in place of the day: left for the next file',
    file: rows(
      'Date,Description,Amount',
      'Pending,CREEK GAS,-1.00',
      '01/13/2025,HOLLOW FEED MILL,-45.67',
      '01/28/2025,MARKET DEPOSIT,300.00',
    ),
    lines: [feed, deposit],
    leftOut: [2],
  },
  {
    name: 'pending rows told by a column: left for the next file',
    file: rows(
      'Date,Status,Description,Amount',
      '01/13/2025,Posted,HOLLOW FEED MILL,-45.67',
      '01/28/2025,Posted,MARKET DEPOSIT,300.00',
      '01/30/2025,Pending,CREEK GAS,-1.00',
    ),
    lines: [feed, deposit],
    leftOut: [4],
  },
  {
    name: 'a check number, the bank’s own number and a memo in columns of their own',
    file: rows(
      'Transaction Number,Date,Description,Memo,Amount Debit,Amount Credit,Balance,Check Number,Fees',
      '20250113-01,01/13/2025,CHECK,HOLLOW FEED MILL,45.67,,954.33,1042,',
      '20250128-02,01/28/2025,DEPOSIT,MARKET,,300.00,1254.33,,',
    ),
    lines: [
      [
        '2025-01-13',
        -4567,
        'CHECK',
        { memo: 'HOLLOW FEED MILL', checkNumber: '1042', bankNumber: '20250113-01' },
      ],
      ['2025-01-28', 30_000, 'DEPOSIT', { memo: 'MARKET', bankNumber: '20250128-02' }],
    ],
    closing: { balance: 125_433, asOf: '2025-01-28' },
  },
  {
    name: 'how the money moved in one column, to whom in another',
    file: rows(
      'Details,Posting Date,Description,Amount,Type,Balance,Check or Slip #',
      'DEBIT,01/13/2025,"HOLLOW FEED MILL",-45.67,DEBIT_CARD,954.33,,',
      'CREDIT,01/28/2025,"MARKET DEPOSIT",300.00,MISC_CREDIT,1254.33,,',
    ),
    lines: [feed, deposit],
  },
]
