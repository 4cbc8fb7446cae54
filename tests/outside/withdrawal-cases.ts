// Withdrawal studies as facts: success percentages by stock share, years and first-year rate. Used by the history checks.

/**
 * P. L. Cooley, C. M. Hubbard and D. T. Walz, Retirement Savings: Choosing a Withdrawal Rate That Is Sustainable,
 * AAII Journal 20(2), February 1998: percent of overlapping periods 1926 to 1995 that last, for first-year withdrawals of
 * 3 to 12 percent of the start, S&P 500 and long-term high-grade corporate bonds. Only mixes with half or more in stocks:
 * the corporate bond series is not ours to carry, and below half it decides the cells.
 * `fixed` was read (a page that reproduces table 1, all rows); `withPrices` (table 3) is from memory, with three cells read.
 */
export const publishedSuccess = {
  firstRate: 3,
  fixed: [
    { stocks: 100, years: 15, success: [100, 100, 98, 98, 93, 91, 88, 77, 63, 55] },
    { stocks: 100, years: 20, success: [100, 98, 96, 94, 92, 84, 73, 61, 47, 43] },
    { stocks: 100, years: 25, success: [100, 98, 96, 91, 87, 78, 70, 50, 43, 35] },
    { stocks: 100, years: 30, success: [100, 98, 95, 90, 85, 78, 68, 54, 49, 34] },
    { stocks: 75, years: 15, success: [100, 100, 100, 100, 96, 95, 91, 79, 63, 46] },
    { stocks: 75, years: 20, success: [100, 100, 100, 96, 94, 88, 71, 51, 41, 33] },
    { stocks: 75, years: 25, success: [100, 100, 98, 96, 91, 78, 57, 46, 33, 26] },
    { stocks: 75, years: 30, success: [100, 100, 98, 95, 88, 73, 54, 46, 37, 24] },
    { stocks: 50, years: 15, success: [100, 100, 100, 100, 100, 98, 91, 71, 50, 36] },
    { stocks: 50, years: 20, success: [100, 100, 100, 100, 96, 88, 61, 41, 25, 10] },
    { stocks: 50, years: 25, success: [100, 100, 100, 98, 96, 70, 43, 22, 7, 0] },
    { stocks: 50, years: 30, success: [100, 100, 100, 98, 90, 51, 37, 15, 0, 0] },
  ],
  withPrices: [
    { stocks: 100, years: 15, success: [100, 100, 100, 91, 79, 70, 63, 55, 43, 34] },
    { stocks: 100, years: 20, success: [100, 100, 88, 75, 63, 53, 43, 33, 29, 24] },
    { stocks: 100, years: 25, success: [100, 100, 87, 70, 59, 46, 35, 30, 26, 20] },
    { stocks: 100, years: 30, success: [100, 95, 85, 68, 59, 41, 34, 34, 27, 15] },
    { stocks: 75, years: 15, success: [100, 100, 100, 95, 82, 68, 64, 46, 36, 27] },
    { stocks: 75, years: 20, success: [100, 100, 90, 75, 61, 51, 37, 27, 20, 12] },
    { stocks: 75, years: 25, success: [100, 100, 85, 65, 50, 37, 30, 22, 7, 2] },
    { stocks: 75, years: 30, success: [100, 98, 83, 68, 49, 34, 22, 7, 2, 0] },
    { stocks: 50, years: 15, success: [100, 100, 100, 93, 79, 64, 50, 32, 23, 13] },
    { stocks: 50, years: 20, success: [100, 100, 90, 75, 55, 33, 22, 10, 0, 0] },
    { stocks: 50, years: 25, success: [100, 100, 80, 57, 37, 20, 7, 0, 0, 0] },
    { stocks: 50, years: 30, success: [100, 95, 76, 51, 17, 5, 0, 0, 0, 0] },
  ],
} as const

/**
 * January-to-January history, 1871 to 2022: percent of starting years whose savings last, withdrawals at the start of each
 * year raised by the prices of the year before, rebalanced every year. Computed apart from this program by a plain loop.
 */
export const longHistorySuccess = {
  rates: [3, 3.5, 4, 4.5, 5, 5.5, 6, 7, 8],
  rows: [
    {
      stocks: 100,
      years: 15,
      starts: 138,
      success: [100.0, 100.0, 100.0, 100.0, 100.0, 97.1, 93.5, 83.3, 76.1],
    },
    {
      stocks: 100,
      years: 30,
      starts: 123,
      success: [100.0, 100.0, 97.6, 91.9, 80.5, 72.4, 69.9, 54.5, 41.5],
    },
    {
      stocks: 100,
      years: 40,
      starts: 113,
      success: [100.0, 100.0, 93.8, 82.3, 74.3, 67.3, 54.9, 38.9, 31.0],
    },
    {
      stocks: 75,
      years: 15,
      starts: 138,
      success: [100.0, 100.0, 100.0, 100.0, 100.0, 100.0, 97.1, 82.6, 76.1],
    },
    { stocks: 75, years: 30, starts: 123, success: [100.0, 100.0, 97.6, 92.7, 77.2, 70.7, 61.8, 45.5, 30.9] },
    { stocks: 75, years: 40, starts: 113, success: [100.0, 100.0, 92.9, 78.8, 69.0, 55.8, 43.4, 31.9, 16.8] },
    {
      stocks: 50,
      years: 15,
      starts: 138,
      success: [100.0, 100.0, 100.0, 100.0, 100.0, 100.0, 97.1, 84.1, 71.0],
    },
    { stocks: 50, years: 30, starts: 123, success: [100.0, 100.0, 95.1, 84.6, 70.7, 56.1, 51.2, 33.3, 17.1] },
    { stocks: 50, years: 40, starts: 113, success: [100.0, 98.2, 85.8, 66.4, 47.8, 35.4, 29.2, 15.9, 9.7] },
    {
      stocks: 25,
      years: 15,
      starts: 138,
      success: [100.0, 100.0, 100.0, 100.0, 100.0, 100.0, 96.4, 77.5, 62.3],
    },
    { stocks: 25, years: 30, starts: 123, success: [100.0, 100.0, 84.6, 57.7, 47.2, 39.8, 34.1, 20.3, 10.6] },
    { stocks: 25, years: 40, starts: 113, success: [98.2, 79.6, 46.9, 35.4, 29.2, 23.0, 15.0, 10.6, 2.7] },
    {
      stocks: 0,
      years: 15,
      starts: 138,
      success: [100.0, 100.0, 100.0, 100.0, 99.3, 97.8, 85.5, 59.4, 45.7],
    },
    { stocks: 0, years: 30, starts: 123, success: [91.1, 68.3, 48.8, 43.9, 36.6, 29.3, 21.1, 11.4, 5.7] },
    { stocks: 0, years: 40, starts: 113, success: [63.7, 40.7, 30.1, 20.4, 16.8, 10.6, 9.7, 5.3, 0.9] },
  ],
} as const

/**
 * Largest first-year real withdrawal that lasts thirty years from the worst start since 1926, percent of the start, and
 * from starts in 1929, 1966 and 1969; same history and timing. Closed form, computed apart from this program.
 */
export const largestLasting = [
  { stocks: 100, worst: 3.782, worstStart: 1929, from1929: 3.782, from1966: 3.81, from1969: 3.921 },
  { stocks: 75, worst: 3.782, worstStart: 1966, from1929: 4.538, from1966: 3.782, from1969: 3.988 },
  { stocks: 60, worst: 3.733, worstStart: 1966, from1929: 4.879, from1966: 3.733, from1969: 3.992 },
  { stocks: 50, worst: 3.686, worstStart: 1966, from1929: 5.043, from1966: 3.686, from1969: 3.98 },
] as const
