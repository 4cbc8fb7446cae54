// The three fields by which a loan's payments are split, wherever they are asked.
import { MoneyField, PercentField } from './field.tsx'

type Shown = (name: string) => { name: string; value: string; error: string | undefined }

/** `field` gives what was typed as `rate`, `payment` and `escrow`. */
export const LoanTermFields = ({ field }: { field: Shown }) => (
  <>
    <PercentField {...field('rate')} label="Rate, percent a year" hint="0 if it has no interest" />
    <MoneyField {...field('payment')} label="Payment a month" hint="Principal and interest alone" />
    <MoneyField
      {...field('escrow')}
      label="Taxes and insurance with it"
      hint="A month, if the lender collects them"
    />
  </>
)
