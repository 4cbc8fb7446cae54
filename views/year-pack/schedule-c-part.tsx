// Schedule C of one venture as it prints, with its depreciation.
import { yearIn } from '#calendar/month.ts'
import { scheduleCRows } from '#ledger/reports/form-rows.ts'
import { scheduleCSource, scheduleCUnread } from '#ledger/schedule-c-lines.ts'
import type { YesNo } from '#ledger/tax/form-said.ts'
import type { VentureForm } from '#today/year-pack/figures.ts'
import { Bridge } from './bridge-part.tsx'
import { BesideLine22, depreciationRows } from './depreciation-part.tsx'
import { Answers, FormTable, linesPartIV, vehicleAnswers, yesOrNo } from './form-table.tsx'
import { AmountRow, PackPart, TotalRow } from './parts.tsx'
import { LinesSource } from './whole/lines-source.tsx'

interface ScheduleCPartProps {
  id: string
  csv: string
  venture: VentureForm
}

export const ScheduleCPart = ({ venture, ...part }: ScheduleCPartProps) => {
  const { form, depreciation } = venture
  return (
    <PackPart
      {...part}
      title="Schedule C summary"
      of={form.name}
      says={`Profit or loss from business, ${form.year}, cash method, by line.`}
    >
      <p class="no-print">
        <a href={`/year-pack/schedule-c/${form.sideId}?year=${form.year}`}>
          Enter what the form asks beyond the books
        </a>
      </p>
      <Answers rows={scheduleCAnswers(venture)} />
      <FormTable caption={`Schedule C summary, ${form.year}`} rows={scheduleCRows(form)} />
      {form.homeUnused === '' ? null : <p>{form.homeUnused}</p>}
      {depreciation.totalCents === 0 && !depreciation.startUp ? null : (
        <>
          <h3>Depreciation for Form 4562</h3>
          <table class="pack-table">
            <tbody>
              {depreciationRows(depreciation).map(({ part: at, label, note, amountCents }) => (
                <AmountRow label={label} note={`${at}${note ? `: ${note}` : ''}`} amounts={[amountCents]} />
              ))}
            </tbody>
            <tfoot>
              <TotalRow label="Line 22, to Schedule C line 13" amounts={[depreciation.totalCents]} />
            </tfoot>
          </table>
          <BesideLine22 form={depreciation} />
        </>
      )}
      <Bridge
        bridge={form.bridge}
        line="31"
        says="Equipment, buildings and land sold go on Form 4797. Money that waits to be sorted is deducted nowhere yet."
      />
      <p class="source">
        <LinesSource source={scheduleCSource(form.year)} unread={scheduleCUnread} />
      </p>
    </PackPart>
  )
}

const beganIn = ({ began, beganOn }: VentureForm['said'], year: number): YesNo =>
  beganOn === null ? began : yearIn(beganOn) === year ? 'yes' : 'no'

export const scheduleCAnswers = ({ said, person, form }: VentureForm) =>
  [
    ['', 'Proprietor', person],
    ['A', 'Main work', said.product],
    ['B', 'Code', said.code],
    ['C', 'Business name', form.name],
    [
      'D',
      'Employer ID number',
      said.hasEmployerId === 'yes' ? 'to be written here' : said.hasEmployerId === 'no' ? 'None' : null,
    ],
    ['F', 'Method', 'Cash'],
    ['G', 'Material participation', yesOrNo(said.takesPart)],
    ['H', 'Began in this year', yesOrNo(beganIn(said, form.year))],
    ['I', 'Payments that call for Forms 1099', yesOrNo(said.owes1099)],
    ['J', 'They were or will be filed', yesOrNo(said.files1099)],
    [
      '32',
      'With a loss',
      form.netProfitCents >= 0 || said.atRisk === null
        ? null
        : said.atRisk === 'all'
          ? '32a, all is at risk'
          : '32b, some is not at risk: Form 6198',
    ],
    ...vehicleAnswers(said, linesPartIV),
  ] as const
