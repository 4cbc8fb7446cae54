// Schedule F as it prints: what is asked once, line by line, one column an owner, and line 14 beside the books.
import { scheduleFRows } from '#ledger/reports/form-rows.ts'
import type { ScheduleF } from '#ledger/reports/schedule-f.ts'
import { scheduleFSource, scheduleFUnread } from '#ledger/schedule-f-lines.ts'
import type { FarmForm } from '#today/year-pack/figures.ts'
import { Bridge } from './bridge-part.tsx'
import { Answers, FormTable, lines4562, vehicleAnswers, yesOrNo } from './form-table.tsx'
import { PackPart } from './parts.tsx'
import { LinesSource } from './whole/lines-source.tsx'

interface ScheduleFPartProps {
  id: string
  csv: string
  of: string
  form: ScheduleF
  asked: FarmForm
}

export const ScheduleFPart = ({ form, asked, ...part }: ScheduleFPartProps) => (
  <PackPart
    {...part}
    title="Schedule F summary"
    says={`Profit or loss from farming, ${form.year}, cash method, by line.`}
  >
    <p class="no-print">
      <a href={`/year-pack/schedule-f?year=${form.year}`}>Enter what the form asks beyond the books</a>
    </p>
    <Answers rows={scheduleFAnswers(form, asked)} />
    <FormTable
      caption={`Schedule F summary, ${form.year}`}
      rows={scheduleFRows(form, asked.each)}
      owners={asked.each ? asked.owners : []}
    />
    {form.homeUnused === '' ? null : <p>{form.homeUnused}</p>}
    {asked.said.ownership === 'partnership' ? (
      <p>
        A partnership files Form 1065, and its owners take their shares from Schedule K-1: these lines are its
        Schedule F.
      </p>
    ) : null}
    <Bridge
      bridge={form.bridge}
      line="34"
      says="Sales of breeding stock and of equipment go on Form 4797. The value of goods used at home is kept for the books; whether the costs of growing them may be deducted is a question for a preparer."
    />
    {/* On the paper of all sheets the schedule of depreciation, which follows, leads there. */}
    {part.csv === '' || isBooked(form.depreciation) ? null : (
      <p class="no-print">
        <a href={`/year-pack/depreciation?year=${form.year}&side=farm`}>Book the difference of line 14</a>
      </p>
    )}
    <p class="source">
      <LinesSource source={scheduleFSource(form.year)} unread={scheduleFUnread} />
    </p>
  </PackPart>
)

export const scheduleFAnswers = (form: ScheduleF, { said, owners, each }: FarmForm) =>
  [
    [
      '',
      'Proprietor',
      owners.length === 0
        ? 'Not entered yet'
        : `${owners.join(each ? ', and a second form for ' : ' and ')}${each ? ', as a qualified joint venture' : ''}`,
    ],
    ['A', 'Main product', said.product],
    ['B', 'Code', said.code],
    ['C', 'Method', 'Cash'],
    [
      'D',
      'Employer ID number',
      said.hasEmployerId === 'yes' ? 'to be written here' : said.hasEmployerId === 'no' ? 'None' : null,
    ],
    ['E', 'Material participation', yesOrNo(said.takesPart)],
    ['F', 'Payments that call for Forms 1099', yesOrNo(said.owes1099)],
    ['G', 'They were or will be filed', yesOrNo(said.files1099)],
    [
      '6c',
      'Election to put crop insurance off',
      said.cropPutOffCents > 0 ? 'Attached: a statement by 26 CFR 1.451-6' : null,
    ],
    ...vehicleAnswers(said, lines4562).map(([line, what, says]) => [of4562(line), what, says] as const),
    [
      '36',
      'With a loss',
      form.netProfitCents >= 0 || said.atRisk === null
        ? null
        : said.atRisk === 'all'
          ? '36a, all is at risk'
          : '36b, some is not at risk: Form 6198',
    ],
  ] as const

const of4562 = (line: string): string => (line === '' ? '10' : `4562, ${line}`)

/** What is written off by the schedule stands in the books too. */
const isBooked = ({ bookedCents, scheduleCents }: ScheduleF['depreciation']): boolean =>
  scheduleCents === null || bookedCents === scheduleCents
