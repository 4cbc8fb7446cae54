// People and payees of a year as CSV.
import { monthNames } from '#calendar/month.ts'
import { type Cents, cents } from '#money/cents.ts'
import { centsToDecimalText } from '#money/format.ts'
import type { PeopleFigures } from '#today/year-pack/people-figures.ts'
import { form940Rows, form943Rows, unemploymentWords } from '#views/year-pack/payroll.tsx'
import { formWords } from '#views/year-pack/people-part.tsx'
import { type CsvTable, tableOf } from '#web/forms/csv.ts'

const amount = (value: Cents | null): string => (value === null ? '' : centsToDecimalText(value))

/** Shown of a payee of whom nobody said who it is. */
export const notSaid = 'not said'

const isSent = ({ kind, forms }: PeopleFigures['payees'][number], form: (typeof forms)[number]): boolean =>
  kind !== null && forms.includes(form)

export const peopleTables = (figures: PeopleFigures): Record<string, () => CsvTable> => ({
  payees: () =>
    tableOf(figures.payees, {
      payee: (one) => one.name,
      spellings: (one) => one.spellings.join('; '),
      who: (one) => one.kind ?? notSaid,
      work: (one) => amount(one.workCents),
      rent: (one) => amount(one.rentCents),
      'by card': (one) => amount(one.byCardCents),
      forms: formWords,
      // Before it is said who it is, no amount goes on a form.
      'on 1099-NEC': (one) => amount(isSent(one, '1099-NEC') ? one.workCents : null),
      'on 1099-MISC': (one) => amount(isSent(one, '1099-MISC') ? one.rentCents : null),
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
  ...payrollTables(figures),
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

const payrollTables = (figures: PeopleFigures): Record<string, () => CsvTable> => ({
  'form-943': () => ({
    header: ['line', 'says', 'amount'],
    rows: [
      ...form943Rows(figures.farmPayroll).map((row) => [row.label, row.note, amount(row.amountCents)]),
      ['Line 9, total tax of the year', '', amount(figures.farmPayroll.totalCents)],
      ...figures.farmPayroll.monthsCents.map((sum, i) => ['Line 17', monthNames[i]!, amount(sum)]),
    ],
  }),
  'form-940': () => ({
    header: ['line', 'says', 'amount'],
    rows: [
      ['Whether it is due', unemploymentWords(figures.unemployment, figures.year), ''],
      ...(figures.unemployment.isDue === false ? [] : form940Rows(figures.unemployment)).map((row) => [
        row.label,
        row.note,
        amount(row.amountCents),
      ]),
    ],
  }),
})

/** In the pack the payees' table is the sheet's own; those that are empty are left out. */
export const packPeopleTables = (figures: PeopleFigures): Record<string, () => CsvTable> => {
  const { payees, ...others } = peopleTables(figures)
  const isThere: Record<string, boolean> = {
    workers: figures.workers.length > 0,
    'form-943': figures.farmPayroll.workers > 0,
    'form-940': figures.unemployment.workers > 0,
    papers: figures.papers.length > 0,
    premiums: figures.premiums.length > 0,
  }
  return {
    people: payees!,
    ...Object.fromEntries(Object.entries(others).filter(([name]) => isThere[name])),
  }
}
