// The state's income tax as the plan expects it, with what is left out of it said beside.
import { formatDollars } from '#money/format.ts'
import type { StateTaxFigures } from '#today/tax/state-tax-figures.ts'

export const StateTax = ({ figures }: { figures: StateTaxFigures | null }) => (
  <section aria-labelledby="state-tax-title">
    <h2 id="state-tax-title">{figures?.name ?? 'State'} income tax</h2>
    {figures === null ? (
      <p>
        The plan counts none. To count it by the law of your state, choose the state under{' '}
        <a href="/runway/plan/household">Household</a> and the kind “By the law of the state you live in”
        above.
      </p>
    ) : (
      <>
        <p>
          {figures.dollars < 0
            ? `As planned the state pays ${formatDollars(-figures.dollars)} for ${figures.year}: its refundable credits are more than its tax.`
            : `As planned it is ${formatDollars(figures.dollars)} for ${figures.year}, refundable credits taken off. It is paid and settled on the days of the federal tax.`}
        </p>
        <ul>
          {figures.notes.map((note) => (
            <li>{note}</li>
          ))}
        </ul>
      </>
    )}
  </section>
)
