// The sheets of the household's return: Schedule SE a person, Forms 7206, 8962 and 8995, and the worksheet of all of it.
import type { Child } from 'hono/jsx'
import { cents, dollarsToCents } from '#money/cents.ts'
import { formatCentsPlain } from '#money/format.ts'
import type { YearPackFigures } from '#today/year-pack/figures.ts'
import { EmptyState } from '../../parts/message.tsx'
import { PackPart } from '../parts.tsx'
import { HealthInsurancePart } from '../tax/health-insurance-part.tsx'
import { PremiumCreditPart } from '../tax/premium-credit-part.tsx'
import { QualifiedBusinessPart } from '../tax/qualified-business-part.tsx'
import { SelfEmploymentPart, selfEmploymentId } from '../tax/self-employment-part.tsx'
import { TaxPart } from '../tax/tax-part.tsx'
import type { Sheet } from './sheet.ts'

export const taxSheets = (figures: YearPackFigures): Sheet[] => [
  ...selfEmploymentSheets(figures),
  ...healthInsuranceSheets(figures),
  ...premiumCreditSheets(figures),
  ...qualifiedBusinessSheets(figures),
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

const healthInsuranceSheets = ({ tax, year }: YearPackFigures): Sheet[] => {
  const lines = tax.status === 'worked' ? tax.worksheet.healthInsurance : []
  return lines.length === 0
    ? []
    : [
        {
          of: 'All sides',
          kind: 'together',
          id: 'form-7206',
          title: 'Form 7206',
          total: () =>
            dollars('deduction for premiums', lines.find(({ line }) => line === '14')?.amount ?? 0),
          show: (csv) => <HealthInsurancePart id="form-7206" csv={csv} lines={lines} year={year} />,
        },
      ]
}

const qualifiedBusinessSheets = ({ tax, year }: YearPackFigures): Sheet[] => {
  const form = tax.status === 'worked' ? tax.worksheet.qualifiedBusiness : null
  return form === null
    ? []
    : [
        {
          of: 'All sides',
          kind: 'together',
          id: 'form-8995',
          title: 'Form 8995',
          total: () =>
            dollars('deduction of the year', form.lines.find(({ line }) => line === '15')?.amount ?? 0),
          show: (csv) => <QualifiedBusinessPart id="form-8995" csv={csv} form={form} year={year} />,
        },
      ]
}

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
  const { payments, figures } = tax.worksheet
  if (payments.comesBack) return { says: 'federal, comes back', amount: inCents(payments.comesBack) }
  if (payments.stillOwed !== null) return { says: 'federal, still owed', amount: inCents(payments.stillOwed) }
  // Books that begin within the year know no payment with the return: what the sheet itself ends with.
  return {
    says: `federal, ${figures.balanceDue < 0 ? 'refund' : 'balance due'}`,
    amount: inCents(Math.abs(figures.balanceDue)),
  }
}

const inCents = (amount: number): string => formatCentsPlain(dollarsToCents(amount))
