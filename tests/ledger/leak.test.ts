// The leak by hand: what was put in, less what came back as draws and as reimbursements.
import { expect, test } from 'vitest'
import { month } from '#calendar/month.ts'
import { leakByMonth } from '#ledger/leak.ts'
import { cents } from '#money/cents.ts'

test('reimbursements close the leak as draws do, and it runs on from month to month', () => {
  const crossed = [
    { month: month(2026, 1), contributionCents: 500_00, drawCents: 0, reimbursementCents: 0 },
    { month: month(2026, 2), contributionCents: 100_00, drawCents: 50_00, reimbursementCents: 80_00 },
    { month: month(2026, 3), contributionCents: 0, drawCents: 600_00, reimbursementCents: 20_00 },
  ].map(({ month, ...sums }) => ({
    month,
    contributionCents: cents(sums.contributionCents),
    drawCents: cents(sums.drawCents),
    reimbursementCents: cents(sums.reimbursementCents),
  }))
  const leak = leakByMonth(crossed)
  expect(leak.map((one) => one.leakCents)).toEqual([500_00, -30_00, -620_00])
  expect(leak.map((one) => one.runningCents)).toEqual([500_00, 470_00, -150_00])
})
