// What each claim age leaves of savings, in a sentence a person and in a table.
import { ageInWords } from '#calendar/spell.ts'
import { formatDollars } from '#money/format.ts'
import type { SlowerAnswers } from '#today/slower-years/figures.ts'
import { DataTable } from '../parts/table.tsx'

export const ClaimPart = ({ answers }: { answers: SlowerAnswers }) => (
  <section id="claims" aria-labelledby="claims-title">
    <h2 id="claims-title">Social Security by claim age</h2>
    <ul>
      {answers.claims.map((person) => (
        <li>{claimInWords(person)}</li>
      ))}
    </ul>
    <details>
      <summary>Every claim age</summary>
      <div class="columns">
        {answers.claims.map((person) => (
          <DataTable
            caption={`${person.name}; the plan says ${ageInWords(person.planned)}`}
            ofPlan
            csv="/slower-years/answers.csv?table=claims"
            rows={person.choices}
            columns={[
              {
                title: 'Claims at',
                isHeader: true,
                cell: (one) => `${ageInWords(one.age)}${isPlanned(person, one) ? ' (plan)' : ''}`,
              },
              {
                title: 'Benefits a month from 71',
                isNumber: true,
                cell: (one) =>
                  one.monthlyAfter70 === null ? 'the plan ends before' : formatDollars(one.monthlyAfter70),
              },
              { title: 'Left at the end', isNumber: true, cell: (one) => formatDollars(one.savingsAtEnd) },
              { title: 'Months short', isNumber: true, cell: (one) => String(one.monthsShort) },
            ]}
          />
        ))}
      </div>
    </details>
    <p class="hint">
      The other’s claim as planned. Claiming late pays for a long life; the plan runs to its own ages.{' '}
      <a href="/runway/questions/claim">How sure is that?</a>
    </p>
  </section>
)

type Claims = SlowerAnswers['claims'][number]

const isPlanned = ({ planned }: Claims, { age }: Claims['choices'][number]): boolean =>
  age.years === planned.years && age.months === planned.months

const claimInWords = (person: Claims): string => {
  const planned = person.choices.find((one) => isPlanned(person, one))
  const best = person.choices.reduce((a, b) =>
    b.monthsShort < a.monthsShort || (b.monthsShort === a.monthsShort && b.savingsAtEnd > a.savingsAtEnd)
      ? b
      : a,
  )
  const said = planned
    ? `${person.name} claims at ${ageInWords(person.planned)} by the plan, which leaves ${formatDollars(planned.savingsAtEnd)} at its end`
    : `${person.name} claims at ${ageInWords(person.planned)} by the plan`
  if (!person.choices.some((one) => one.hasBenefits))
    return `${person.name}: no benefits are counted. Enter what was earned in past years under Runway, Edit the plan, Household.`
  const isBest =
    !planned || (best.monthsShort === planned.monthsShort && best.savingsAtEnd < planned.savingsAtEnd + 1)
  return isBest
    ? `${said}; no other age would leave more.`
    : `${said}. Claiming at ${ageInWords(best.age)} would leave most: ${formatDollars(best.savingsAtEnd)}.`
}
