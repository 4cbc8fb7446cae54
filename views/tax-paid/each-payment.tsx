// Payments of a year's tax one by one, but for what was withheld: Form 1040-ES and the return ask for days.
import { dayName } from '#calendar/day.ts'
import { formatDollarsAndCents } from '#money/format.ts'
import { stateNames } from '#rules/places/state-names.ts'
import type { PaidOnce } from '#today/tax/paid-each.ts'
import { officeWords, useWords } from './tax-payments.tsx'

export const EachPayment = ({ payments, caption }: { payments: readonly PaidOnce[]; caption: string }) =>
  payments.length === 0 ? null : (
    <table class="pack-table">
      <caption>{caption}</caption>
      <tbody>
        {payments.map(({ day, payee, office, otherState, use, dollars, undecided }) => (
          <tr>
            <th scope="row">
              {dayName(day)}, {otherState === null ? '' : `${stateNames[otherState]} `}
              {officeWords[office]}: {useWords[use]}
              <span class="pack-note">
                {' '}
                {payee}
                {undecided ? ' Another year fits too: not chosen yet' : ''}
              </span>
            </th>
            <td class="number">{formatDollarsAndCents(dollars)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
