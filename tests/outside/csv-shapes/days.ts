// How banks write days, and in which order their rows stand.
import { rows, type Shape } from './shape.ts'

const written = (name: string, first: string, second: string): Shape => ({
  name,
  file: rows(
    'Date,Description,Amount',
    `${first},HOLLOW FEED MILL,-45.67`,
    `${second},MARKET DEPOSIT,300.00`,
  ),
  lines: [
    ['2025-01-13', -4567, 'HOLLOW FEED MILL'],
    ['2025-01-28', 30_000, 'MARKET DEPOSIT'],
  ],
})

export const dayShapes: readonly Shape[] = [
  written('day first, with slashes', '13/01/2025', '28/01/2025'),
  written('two-figure years, no leading noughts', '1/13/25', '1/28/25'),
  written('year first', '2025-01-13', '2025-01-28'),
  written('a time of day and its zone', '2025-01-13T09:30:00Z', '2025-01-28T18:05:00-05:00'),
  written('a time with AM and PM', '01/13/2025 09:30 AM', '01/28/2025 6:05 PM'),
  written('eight figures', '20250113', '20250128'),
  written('the month in letters', '13 Jan 2025', '28-JAN-2025'),
  written('the month in letters first', '"Jan 13, 2025"', '"January 28, 2025"'),
  written('the weekday before', '"Mon, Jan 13, 2025"', 'Tuesday 01/28/2025'),
  {
    name: 'days that fit two orders: taken as the shorter span, and asked about',
    file: rows(
      'Date,Description,Amount',
      '03/01/2025,HOLLOW FEED MILL,-45.67',
      '05/01/2025,MARKET DEPOSIT,300.00',
    ),
    lines: [
      ['2025-01-03', -4567, 'HOLLOW FEED MILL'],
      ['2025-01-05', 30_000, 'MARKET DEPOSIT'],
    ],
    asked: ['dayOrder'],
  },
  {
    name: 'the newest first, with a balance',
    file: rows(
      'Date,Description,Amount,Balance',
      '01/28/2025,MARKET DEPOSIT,300.00,1254.33',
      '01/13/2025,HOLLOW FEED MILL,-45.67,954.33',
    ),
    lines: [
      ['2025-01-28', 30_000, 'MARKET DEPOSIT', { balance: 125_433 }],
      ['2025-01-13', -4567, 'HOLLOW FEED MILL', { balance: 95_433 }],
    ],
    closing: { balance: 125_433, asOf: '2025-01-28' },
  },
  {
    name: 'a day of booking and one of value: the booking counts',
    file: rows(
      'Value Date,Posting Date,Description,Amount',
      '01/10/2025,01/13/2025,HOLLOW FEED MILL,-45.67',
      '01/30/2025,01/28/2025,MARKET DEPOSIT,300.00',
    ),
    lines: [
      ['2025-01-13', -4567, 'HOLLOW FEED MILL'],
      ['2025-01-28', 30_000, 'MARKET DEPOSIT'],
    ],
  },
]
