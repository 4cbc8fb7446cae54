// The tax worksheet: what the return takes in from the books, its figures with rule and source, when tax is due, and what it leaves out.
import { dayName } from '#calendar/day.ts'
import { formatDollars, formatDollarsAndCents } from '#money/format.ts'
import { estimatedTaxSource } from '#rules/estimated-tax.ts'
import { stateNames } from '#rules/places/state-names.ts'
import type { TraceLine } from '#rules/return/trace.ts'
import type { StateEstimatedTax } from '#rules/states/state-dates.ts'
import type { TaxWorksheet } from '#today/year-pack/figures.ts'
import { Caution } from '../../parts/message.tsx'
import { EachPayment } from '../../tax-paid/each-payment.tsx'
import { PackPart } from '../parts.tsx'
import { figureName, plainName } from './figure-name.ts'

interface TaxPartProps {
  id: string
  csv: string
  worksheet: TaxWorksheet
  year: number
}

export const TaxPart = ({ id, csv, worksheet, year }: TaxPartProps) => (
  <PackPart
    id={id}
    csv={csv}
    title="Tax worksheet"
    of={String(year)}
    says={`The federal return, and the state’s, as far as the books and the plan’s people go, by ${worksheet.basis === 'enacted' ? 'published law' : 'law carried forward from the last published year'}.`}
  >
    <Caution askWhom="a licensed tax preparer">A worksheet to prepare for the return, not a return.</Caution>
    <h3>What goes in</h3>
    <table class="pack-table">
      <tbody>
        {worksheet.inputs
          .filter((input) => input.dollars !== 0)
          .map((input) => (
            <tr>
              <th scope="row">
                {input.label}
                <span class="pack-note"> {input.says}</span>
              </th>
              <td class="number">{formatDollarsAndCents(input.dollars)}</td>
            </tr>
          ))}
      </tbody>
    </table>
    <h3>What comes out, with rule and source</h3>
    <table class="pack-table pack-trace">
      <tbody>
        {worksheet.trace
          .filter((line) => line.amount !== 0)
          .map((line) => (
            <TraceRow
              line={line}
              name={figureName(line.figure)}
              madeOf={summed.has(line.figure) ? madeOf(line) : ''}
            />
          ))}
      </tbody>
    </table>
    <p class="source">Zero this year: {zeroFigures(worksheet.trace)}.</p>
    <StateTax state={worksheet.state} />
    <WhatWasPaid worksheet={worksheet} year={year} />
    <EstimatedTax worksheet={worksheet} />
    <h3>Assumed or left out</h3>
    <ul class="pack-list">
      {[...worksheet.assumed, ...worksheet.cautions].map((text) => (
        <li>{text}</li>
      ))}
    </ul>
  </PackPart>
)

type Office = 'federal' | 'state' | 'local'

/** What was paid for a year's return, in the order of its lines; those of the federal one are named. */
export const paidRows = (
  payments: TaxWorksheet['payments'],
  office: Office,
): readonly { label: string; dollars: number }[] => {
  const line = (says: string) => (office === 'federal' ? `, line ${says}` : '')
  const where = (is: boolean, label: string, dollars: number) => (is ? [{ label, dollars }] : [])
  return [
    { label: `Withheld from pay${line('25a')}`, dollars: payments.withheld },
    { label: `Estimated payments${line('26')}`, dollars: payments.estimates },
    ...where(
      payments.applied !== 0,
      `Left there from the refund of the year before${line('26')}`,
      payments.applied,
    ),
    { label: 'Paid with the return or after it', dollars: payments.withReturn },
    { label: 'Came back', dollars: payments.refunded },
    ...where(payments.appliedToNext !== 0, `Left for the next year${line('36')}`, payments.appliedToNext),
    ...where(payments.stillOwed !== null, 'Still owed by this worksheet', payments.stillOwed ?? 0),
    ...where((payments.comesBack ?? 0) > 0, 'Comes back by this worksheet', payments.comesBack ?? 0),
  ]
}

const Paid = ({ payments, office }: { payments: TaxWorksheet['payments']; office: Office }) => (
  <table class="pack-table">
    <tbody>
      {paidRows(payments, office).map(({ label, dollars }) => (
        <tr>
          <th scope="row">{label}</th>
          <td class="number">{formatDollarsAndCents(dollars)}</td>
        </tr>
      ))}
    </tbody>
  </table>
)

const WhatWasPaid = ({ worksheet, year }: { worksheet: TaxWorksheet; year: number }) => (
  <>
    <h3>What was paid</h3>
    <Paid payments={worksheet.payments} office="federal" />
    {worksheet.statePayments === null ? null : (
      <>
        <h4>To the state</h4>
        <Paid payments={worksheet.statePayments} office="state" />
      </>
    )}
    {worksheet.localPayments === null ? null : (
      <>
        <h4>To the local office</h4>
        <Paid payments={worksheet.localPayments} office="local" />
      </>
    )}
    {worksheet.otherStates.map(({ state, paid }) => (
      <>
        <h4>To {stateNames[state]}</h4>
        <Paid payments={{ ...paid, stillOwed: null, comesBack: null }} office="state" />
        <p class="source">
          A return of its own, which is not worked out here: ask what your state takes off for tax of another.
        </p>
      </>
    ))}
    <EachPayment
      payments={worksheet.paidEach}
      caption="Each payment that counts for the year, but what was withheld"
    />
    <p class="no-print">
      <a href={`/year-pack/payments?year=${year}`}>Each payment, and for which year it counts</a>;{' '}
      <a href={`/year-pack/contributions?year=${year}`}>each contribution to retirement and health savings</a>
      ; <a href={`/year-pack/cover-papers?year=${year}`}>Form 1095-A by month</a>
    </p>
  </>
)

const StateTax = ({ state }: Pick<TaxWorksheet, 'state'>) =>
  state === null ? (
    <p>
      No state income tax is counted: choose your state under <a href="/runway/plan/household">Household</a>.
    </p>
  ) : (
    <>
      <h3>The state’s return</h3>
      <table class="pack-table pack-trace">
        <tbody>
          {state.trace.map((line) => (
            <TraceRow line={line} name={figureName(line.figure)} madeOf={madeOf(line)} />
          ))}
        </tbody>
      </table>
      <ul class="pack-list">
        {state.cautions.map((text) => (
          <li>{text}</li>
        ))}
      </ul>
    </>
  )

const zeroFigures = (trace: readonly TraceLine[]): string =>
  trace
    .filter((line) => line.amount === 0)
    .map((line) => figureName(line.figure).toLowerCase())
    .join(', ') || 'no line'

/** Sums of which each item stands on paper too, since no other line has it: half of self-employment tax, the premium credit less its advance. */
const summed: ReadonlySet<string> = new Set(['adjustedGrossIncome', 'totalPayments'])

/** Each item of a state's line, so that what was taken off stands on paper too. */
const madeOf = ({ inputs }: TraceLine): string =>
  Object.entries(inputs)
    .filter(([, value]) => typeof value === 'number' && Math.abs(value) >= 1)
    .map(([name, value]) => `${plainName(name)} ${formatDollarsAndCents(value as number)}`)
    .join('; ')

const TraceRow = ({ line, name, madeOf = '' }: { line: TraceLine; name: string; madeOf?: string }) => (
  <tr>
    <th scope="row">
      {name}
      <span class="pack-note">
        {' '}
        {madeOf === '' ? '' : `Of: ${madeOf}. `}
        {line.rule.toLowerCase() === name.toLowerCase() ? '' : `${line.rule}. `}Source: {line.source}
      </span>
      <details class="made-of no-print">
        <summary>What went in</summary>
        <ul>
          {Object.entries(line.inputs).map(([input, value]) => (
            <li>
              <span>{plainName(input)}</span>{' '}
              <span>{typeof value === 'number' ? inputNumber(value) : value}</span>
            </li>
          ))}
        </ul>
      </details>
    </th>
    <td class="number">
      {/[Pp]ercent/.test(line.figure) ? `${line.amount}%` : formatDollarsAndCents(line.amount)}
    </td>
  </tr>
)

/** Rates have up to four digits (.9235), amounts two. */
const inputNumber = (value: number): string =>
  value.toLocaleString('en-US', { maximumFractionDigits: Math.abs(value) < 1 ? 4 : 2 })

const EstimatedTax = ({ worksheet }: { worksheet: TaxWorksheet }) => {
  const { estimated, stateEstimated } = worksheet
  return (
    <>
      <h3>When it is due</h3>
      <ul class="pack-list">
        <li>
          {estimated.farmer
            ? 'Two thirds or more of gross income is from farming: the farmers’ due dates apply.'
            : 'Less than two thirds of gross income is from farming: estimated tax is due in quarters.'}
        </li>
        {estimated.installments.map(({ due, amount }) => (
          <li>
            {dayName(due)}: {formatDollars(amount)} estimated tax, after what was paid
          </li>
        ))}
        {estimated.installments.length === 0 ? <li>No further estimated payment is required.</li> : null}
        {estimated.fileInsteadBy ? (
          <li>Or file the return and pay everything by {dayName(estimated.fileInsteadBy)}.</li>
        ) : null}
        <li>The return is due {dayName(estimated.returnDue)}.</li>
      </ul>
      {stateEstimated ? <StateEstimated state={stateEstimated} /> : null}
      <p class="source">Source: {estimatedTaxSource}.</p>
    </>
  )
}

const StateEstimated = ({ state }: { state: StateEstimatedTax }) => (
  <>
    <h4>{state.name}</h4>
    <ul class="pack-list">
      {state.installments.map(({ due, amount }) => (
        <li>
          {dayName(due)}: {formatDollars(amount)} state estimated tax, after what was paid
        </li>
      ))}
      {state.installments.length === 0 ? <li>No payment ahead is worked out for the state.</li> : null}
      <li>The state’s return is due {dayName(state.returnDue)}.</li>
    </ul>
    <p class="source">
      {state.source === null
        ? 'By the federal dates, shares and bounds: the data here have none of the state’s own. Check with the state.'
        : `By the federal shares and bounds, on the state’s dates: ${state.source}. Check with the state.`}
    </p>
  </>
)
