// People and payees as they print: forms to send, wages of workers with the farm's payroll forms, papers that come, premiums by month.
import { monthNames } from '#calendar/month.ts'
import { type Cents, sumCents } from '#money/cents.ts'
import { formatCents, formatCentsPlain } from '#money/format.ts'
import type { PeopleFigures } from '#today/year-pack/people-figures.ts'
import { Caution } from '../parts/message.tsx'
import { PackPart } from './parts.tsx'
import { Form940Lines, Form943Lines } from './payroll.tsx'

interface PeoplePartProps {
  id: string
  csv: string
  figures: PeopleFigures
}

/** Forms 1099 by payee, where it was said who that is, and Forms W-2 by worker. */
export const formsToSend = ({ payees, workers }: PeopleFigures): number =>
  payees.reduce((sum, { kind, forms }) => sum + (kind === null ? 0 : forms.length), 0) + workers.length

/** Those that are due unless the payee is a company, which nobody has said yet. */
export const formsUnsaid = ({ payees }: PeopleFigures): number =>
  payees.reduce((sum, { kind, forms }) => sum + (kind === null ? forms.length : 0), 0)

export const formWords = ({ kind, forms }: PeopleFigures['payees'][number]): string => {
  if (kind === 'worker') return 'W-2'
  if (forms.length === 0) return 'none'
  return kind === null ? `${forms.join(', ')} unless a company: not entered` : forms.join(', ')
}

export const PeoplePart = ({ figures, ...part }: PeoplePartProps) => (
  <PackPart
    {...part}
    title="People and payees"
    of={String(figures.year)}
    says="Who was paid for work or rent, what workers got, papers to come, and health premiums. Numbers of people are not kept here."
  >
    {figures.workers.length === 0 ? null : (
      <Caution askWhom="a payroll service or a licensed tax preparer">
        States ask for unemployment insurance, workers’ compensation and withholding of their own.
      </Caution>
    )}
    <Payees figures={figures} />
    {figures.unnamed === null ? null : <p>{unnamedWords(figures.unnamed)}</p>}
    <Workers figures={figures} />
    <Form943Lines figures={figures} />
    <Form940Lines figures={figures} />
    <Papers figures={figures} />
    <Premiums figures={figures} />
  </PackPart>
)

export const unnamedWords = ({ names, paidCents }: NonNullable<PeopleFigures['unnamed']>): string =>
  `${formatCents(paidCents)} was paid for work or rent to whom the books do not say: they have only the bank’s word (${names.join(', ')}).`

type Cell = string | Cents | null

const Table = ({
  caption,
  heads,
  rows,
}: {
  caption: string
  heads: readonly string[]
  rows: readonly (readonly [string, ...Cell[]])[]
}) =>
  rows.length === 0 ? null : (
    <table class="pack-table">
      <caption>{caption}</caption>
      <thead>
        <tr>
          {heads.map((head, i) => (
            <th scope="col" class={i > 0 && typeof rows[0]![i] !== 'string' ? 'number' : undefined}>
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(([name, ...cells]) => (
          <tr>
            <th scope="row">{name}</th>
            {cells.map((cell) =>
              typeof cell === 'string' ? (
                <td>{cell}</td>
              ) : (
                <td class="number">{cell === null || cell === 0 ? null : formatCentsPlain(cell)}</td>
              ),
            )}
          </tr>
        ))}
      </tbody>
    </table>
  )

const Payees = ({ figures: { payees } }: { figures: PeopleFigures }) => (
  <Table
    caption="Paid for work or rent"
    heads={['Payee', 'Form', 'Work', 'Rent', 'By card']}
    rows={payees.map((one) => [one.name, formWords(one), one.workCents, one.rentCents, one.byCardCents])}
  />
)

const Workers = ({ figures: { workers } }: { figures: PeopleFigures }) => {
  const row = (name: string, of: typeof workers): [string, ...Cell[]] => [
    name,
    sumCents(of.map((one) => one.grossCents)),
    sumCents(of.map((one) => one.federalCents)),
    sumCents(of.map(({ due }) => due.socialSecurityCents)),
    sumCents(of.map(({ due }) => due.medicareCents)),
    sumCents(of.map((one) => one.stateCents)),
  ]
  return (
    <Table
      caption="For Form W-2, by worker"
      heads={[
        'Worker',
        'Wages, box 1',
        'Federal tax, 2',
        'Social security, 4',
        'Medicare, 6',
        'State, local',
      ]}
      rows={
        workers.length === 0
          ? []
          : [...workers.map((one) => row(one.name, [one])), row('All workers', workers)]
      }
    />
  )
}

const Papers = ({ figures: { papers } }: { figures: PeopleFigures }) => (
  <Table
    caption="Papers that come"
    heads={['Paper', 'Of', 'In the books', 'On the paper']}
    rows={papers.map((one) => [
      one.paper,
      [one.account, one.person, one.side].filter(Boolean).join(', '),
      one.bookedCents,
      one.paperCents,
    ])}
  />
)

/** Two halves of a year, so that twelve months fit on a sheet. */
const Premiums = ({ figures: { premiums } }: { figures: PeopleFigures }) => (
  <>
    {[0, 6].map((from) => (
      <Table
        caption={`Health premiums, ${monthNames[from]} to ${monthNames[from + 5]} (Forms 8962, 7206)`}
        heads={['Whose', ...monthNames.slice(from, from + 6).map((name) => name.slice(0, 3))]}
        rows={premiums.map((one) => [
          [one.name, one.person ?? 'all'].join(', '),
          ...one.monthsCents.slice(from, from + 6),
        ])}
      />
    ))}
  </>
)
