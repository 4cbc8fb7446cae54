// The fields of a loan of the farm.
import type { KindWords } from './field-hints.ts'

export const loanWords: KindWords = {
  kind: 'loans',
  one: 'loan',
  add: 'Add a loan',
  purpose: 'Paid month by month. The farm borrows only what stands here.',
  fields: [
    { name: 'name', label: 'Name', kind: 'text', group: 'The loan' },
    { name: 'principal', label: 'Owed at the start', kind: 'money', group: 'The loan' },
    { name: 'yearlyRate', label: 'Yearly rate, percent', kind: 'percent', group: 'The loan' },
    {
      name: 'paymentPerMonth',
      label: 'Payment a month',
      hint: 'Empty: equal payments over the number left',
      kind: 'money',
      optional: true,
      group: 'The loan',
    },
    {
      name: 'months',
      label: 'Payments left',
      hint: 'The last one pays all that is still owed',
      kind: 'whole',
      optional: true,
      group: 'The loan',
    },
    {
      name: 'start',
      label: 'Starts in',
      hint: 'The first payment is a month later',
      kind: 'month',
      group: 'The loan',
    },
    {
      name: 'drawn',
      label: 'Its money comes in then (else it is owed already)',
      kind: 'checkbox',
      group: 'The loan',
    },
    {
      name: 'onRealEstate',
      label: 'Secured by land or buildings',
      kind: 'checkbox',
      group: 'The loan',
    },
    {
      name: 'bookAccount',
      label: 'Number of its account in the books',
      hint: 'Its payments are then split into interest and principal as they are sorted',
      kind: 'whole',
      optional: true,
      group: 'The loan',
    },
  ],
}
