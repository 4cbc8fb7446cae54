// People and payees of a year as CSV.
import { monthNames } from '#calendar/month.ts'
import { type Cents, cents } from '#money/cents.ts'
import { centsToDecimalText } from '#money/format.ts'
import type { PeopleFigures } from '#today/year-pack/people-figures.ts'
import { type CsvTable, tableOf } from '#web/forms/csv.ts'

const amount = (value: Cents | null): string => (value === null ? '' : centsToDecimalText(value))

export const peopleTables = (figures: PeopleFigures): Record<string, () => CsvTable> => ({
  payees: () =>
    tableOf(figures.payees, {
      payee: (one) => one.name,
      spellings: (one) => one.spellings.join('; '),
      who: (one) => one.kind ?? '',
      work: (one) => amount(one.workCents),
      rent: (one) => amount(one.rentCents),
      'by card': (one) => amount(one.byCardCents),
      forms: (one) => one.forms.join(' '),
      'form on file': (one) => (one.formOnFile ? 'yes' : ''),
    }),
  workers: () =>
    tableOf(figures.workers, {
      side: (one) => one.sideId,
      worker: (one) => one.name,
      wages: (one) => amount(one.grossCents),
      'federal tax withheld': (one) => amount(one.federalCents),
      'state and local tax withheld': (one) => amount(one.stateCents),
      'social security and Medicare withheld': (one) => amount(one.payrollCents),
      'employer’s part booked': (one) => amount(one.employerCents),
      'social security by law': (one) => amount(one.due.socialSecurityCents),
      'Medicare by law': (one) => amount(one.due.medicareCents),
    }),
  papers: () =>
    tableOf(figures.papers, {
      paper: (one) => one.paper,
      side: (one) => one.side,
      account: (one) => one.account,
      whose: (one) => one.person ?? '',
      booked: (one) => amount(one.bookedCents),
      'on the paper': (one) => amount(one.paperCents),
      difference: (one) => (one.paperCents === null ? '' : amount(cents(one.paperCents - one.bookedCents))),
    }),
  premiums: () => ({
    header: ['account', 'whose', ...monthNames],
    rows: figures.premiums.map(({ name, person, monthsCents }) => [
      name,
      person ?? '',
      ...monthsCents.map((sum) => centsToDecimalText(sum)),
    ]),
  }),
})
