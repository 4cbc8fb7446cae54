// The ages at which things change for each of the people: claims, Medicare, required distributions.
import { nameOfMonth } from '#calendar/month.ts'
import type { SlowerFigures } from '#today/slower-years/figures.ts'
import { DataTable } from '../parts/table.tsx'

export const People = ({ figures }: { figures: SlowerFigures }) =>
  figures.people.length === 0 ? null : (
    <section id="people" aria-labelledby="people-title">
      <h2 id="people-title">Ages at which things change</h2>
      <DataTable
        caption="By the plan and the law of each birth year"
        hideCaption
        stack
        rows={figures.people}
        columns={[
          { title: 'Who', isHeader: true, cell: (one) => one.name },
          { title: 'Claims Social Security', cell: (one) => one.claim },
          { title: 'Medicare from', cell: (one) => nameOfMonth(one.medicareFrom) },
          { title: 'Required distributions from', cell: (one) => one.distributionsFrom },
          ...(figures.inherited.length > 0
            ? [
                {
                  title: 'Inherited accounts pay out',
                  cell: (one: SlowerFigures['people'][number]) => inheritedWords(figures, one),
                },
              ]
            : []),
        ]}
      />
      <p>
        <a href="/cover/years">Who is covered by what, year by year</a>.
      </p>
    </section>
  )

const inheritedWords = ({ inherited }: SlowerFigures, person: SlowerFigures['people'][number]) =>
  inherited
    .filter(({ heir }) => heir === person.place)
    .map(({ account, by }) =>
      by === null ? `${account}: a part each year` : `${account}: all by the end of ${by.year}, at ${by.age}`,
    )
    .join('; ')
