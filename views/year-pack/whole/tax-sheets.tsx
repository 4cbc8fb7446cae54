// The sheets of the household's return: Schedule SE a person, Form 8962, and the worksheet of all of it.
import type { Child } from 'hono/jsx'
import { cents } from '#money/cents.ts'
import { formatCentsPlain, formatDollarsAndCents } from '#money/format.ts'
import type { YearPackFigures } from '#today/year-pack/figures.ts'
import { EmptyState } from '../../parts/message.tsx'
import { PackPart } from '../parts.tsx'
import { PremiumCreditPart } from '../tax/premium-credit-part.tsx'
import { SelfEmploymentPart, selfEmploymentId } from '../tax/self-employment-part.tsx'
import { TaxPart } from '../tax/tax-part.tsx'
import type { Sheet } from './sheet.ts'

export const taxSheets = (figures: YearPackFigures): Sheet[] => [
  ...selfEmploymentSheets(figures),
  ...premiumCreditSheets(figures),
  {
    of: 'All sides',
    kind: 'together',
    id: 'tax',
    title: 'Tax worksheet',
    total: () => taxTotal(figures.tax),
    show: (csv) => showTax(figures.tax, csv, figures.year),
  },
]

const dollars = (says: string, amount: number) => ({ says, amount: formatCentsPlain(cents(amount)) })

/** A form a person: each signs for their own earnings. */
const selfEmploymentSheets = ({ tax, year }: YearPackFigures): Sheet[] =>
  tax.status === 'cannot'
    ? []
    : tax.worksheet.selfEmployment.map(({ name, lines }, i) => {
        const id = selfEmploymentId(i)
        return {
          of: name,
          kind: 'together',
          id,
          title: 'Schedule SE',
          total: () => dollars('self-employment tax', lines.find(({ line }) => line === '12')?.cents ?? 0),
          show: (csv) => <SelfEmploymentPart id={id} csv={csv} name={name} lines={lines} year={year} />,
        }
      })

const premiumCreditSheets = ({ tax, year }: YearPackFigures): Sheet[] => {
  const form = tax.status === 'worked' ? tax.worksheet.premiumCredit : null
  return form === null
    ? []
    : [
        {
          of: 'All sides',
          kind: 'together',
          id: 'form-8962',
          title: 'Form 8962',
          total: () => dollars('credit of the year', form.creditCents),
          show: (csv) => <PremiumCreditPart id="form-8962" csv={csv} form={form} year={year} />,
        },
      ]
}

const showTax = (tax: YearPackFigures['tax'], csv: string, year: number): Child =>
  tax.status === 'worked' ? (
    <TaxPart id="tax" csv={csv} worksheet={tax.worksheet} year={year} />
  ) : (
    <PackPart id="tax" title="Tax worksheet" of={String(year)} says="Not worked out.">
      <EmptyState href="/settings" action="Open Settings">
        {tax.says}
      </EmptyState>
    </PackPart>
  )

const taxTotal = (tax: YearPackFigures['tax']): { says: string; amount: string } => {
  if (tax.status === 'cannot') return { says: 'not worked out', amount: '' }
  const { stillOwed, comesBack } = tax.worksheet.payments
  if (comesBack) return { says: 'federal, comes back', amount: formatDollarsAndCents(comesBack) }
  return stillOwed === null
    ? { says: 'balance not known', amount: '' }
    : { says: 'federal, still owed', amount: formatDollarsAndCents(stillOwed) }
}
