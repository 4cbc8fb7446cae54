// Where every dollar of income goes: the line of its form, or why it is left out; and the sales of Form 4797, thing by thing.
import { type Day, dayName } from '#calendar/day.ts'
import type { ScheduleF } from '#ledger/reports/schedule-f.ts'
import { householdLinesSource } from '#ledger/tax/household-lines.ts'
import type { IncomePlace } from '#ledger/tax/income-places.ts'
import type { PropertySale } from '#ledger/tax/property-sales.ts'
import { cents, sumCents } from '#money/cents.ts'
import { formatCentsPlain, formatPercent } from '#money/format.ts'
import type { YearPackFigures } from '#today/year-pack/figures.ts'
import { AmountRow, PackPart, TotalRow } from './parts.tsx'

interface PartProps {
  id: string
  csv: string
}

export const IncomePlacesPart = ({
  places,
  between,
  year,
  ...part
}: PartProps & { places: readonly IncomePlace[]; between: ScheduleF['between']; year: number }) => {
  const sumOf = (isOnLine: boolean) =>
    sumCents(places.filter(({ goes }) => (goes !== null) === isOnLine).map((place) => place.amountCents))
  const [onLines, leftOut] = [sumOf(true), sumOf(false)]
  return (
    <PackPart
      {...part}
      title="Where income goes"
      of={String(year)}
      says="Every account of income, with the line that takes it or why none does. Costs are not in it."
    >
      <table class="pack-table">
        <caption class="hidden-text">Income by account, {year}</caption>
        <thead>
          <tr>
            <th scope="col">Account</th>
            <th scope="col">Goes to</th>
            <th scope="col" class="number">
              Amount
            </th>
          </tr>
        </thead>
        <tbody>
          {places.map((place) => (
            <tr>
              <th scope="row">
                <a href={`/books/accounts/${place.accountId}`}>{place.account}</a>
                <span class="pack-note"> {place.side}</span>
              </th>
              <td>
                {place.goes === null
                  ? 'left out'
                  : place.goes.line === 'sales'
                    ? place.goes.form
                    : `${place.goes.form}, ${place.goes.line}`}
                <span class="pack-note"> {place.says}</span>
              </td>
              <td class="number">{formatCentsPlain(place.amountCents)}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <SumRow label="On lines" amount={onLines} />
          <SumRow label="Left out" amount={leftOut} />
          <SumRow label="Income in the books" amount={cents(onLines + leftOut)} />
        </tfoot>
      </table>
      <Between between={between} />
      <p class="source">Lines of the household: {householdLinesSource(year)}.</p>
    </PackPart>
  )
}

/** What makes a line hold other than its accounts. */
const Between = ({ between }: { between: ScheduleF['between'] }) =>
  between.length === 0 ? null : (
    <>
      <h3>Between the books and the form</h3>
      <table class="pack-table">
        <tbody>
          {between.map(({ line, says, amountCents }) => (
            <AmountRow label={`Schedule F, ${line}`} note={says} amounts={[amountCents]} />
          ))}
        </tbody>
      </table>
    </>
  )

const SumRow = ({ label, amount }: { label: string; amount: number }) => (
  <tr class="pack-subtotal">
    <th scope="row" colspan={2}>
      {label}
    </th>
    <td class="number">{formatCentsPlain(cents(amount))}</td>
  </tr>
)

export const PropertySalesPart = ({
  sold,
  of,
  year,
  ...part
}: PartProps & { sold: NonNullable<YearPackFigures['sales']>; of: string; year: number }) => (
  <PackPart
    {...part}
    title="Sales for Form 4797"
    of={of}
    says={`Breeding stock, machinery, buildings and land sold in ${year}, a sale a line.`}
  >
    <table class="pack-table">
      <caption class="hidden-text">Sales for Form 4797, {year}</caption>
      <thead>
        <tr>
          <th scope="col">What</th>
          {['Price', 'Cost', 'Deducted', 'Gain or loss', 'Of it ordinary', 'Section 1231'].map((head) => (
            <th scope="col" class="number">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {sold.sales.map((sale) => (
          <SaleRow sale={sale} year={year} business={sale.business === of ? null : sale.business} />
        ))}
      </tbody>
      <tfoot>
        <TotalRow
          label="All sales"
          amounts={[
            sumCents(sold.sales.map((sale) => sale.priceCents)),
            sumCents(sold.sales.map((sale) => sale.costCents)),
            sumCents(sold.sales.map((sale) => sale.deductedCents)),
            sumCents(sold.sales.map((sale) => sale.gainCents)),
            sold.ordinaryCents,
            sold.section1231Cents,
          ]}
        />
      </tfoot>
    </table>
    <p class="source">
      Part III takes depreciation back as ordinary income; Part II is held too short; Part I is the rest.
      Stock by how long it was held (26 USC 1231(b)(3)), all else by a year (1231(b)(1)). Things used in part
      are sold as two, by the mean of the years’ business use (IRS Pub. 544; the mean is common practice). A
      thing given in trade is sold at what was allowed for it, since gains are put off for land alone (26 USC
      1031(a)(1)). Of what was sold in part, cost and what was deducted go by how much of it was sold.
      Installment sales and losses by theft or disaster and land with buildings are for a preparer. Source: 26
      USC 1231, 1245, 165(c); IRS Pub. 225.
    </p>
  </PackPart>
)

/** A thing used in part: amounts of the row are the business's, and this is told of the rest. */
const personalWords = ({ personal }: PropertySale): string => {
  if (personal === null) return ''
  const { businessUse, priceCents, costCents, gainCents, lossNotAllowedCents, isLongTerm } = personal
  const came =
    gainCents > 0
      ? `a gain of ${formatCentsPlain(gainCents)}, Form 8949, ${isLongTerm ? 'long' : 'short'} term`
      : `a loss of ${formatCentsPlain(lossNotAllowedCents)}, which is not allowed`
  return `, ${formatPercent(businessUse)} business use; personal part sold for ${formatCentsPlain(priceCents)}, cost ${formatCentsPlain(costCents)}: ${came}`
}

const SaleRow = ({ sale, year, business }: { sale: PropertySale; year: number; business: string | null }) => (
  <tr>
    <th scope="row">
      {sale.holdingId === null ? (
        sale.name
      ) : (
        <a href={`/year-pack/holdings/${sale.holdingId}?year=${year}`}>{sale.name}</a>
      )}
      <span class="pack-note">
        {' '}
        {business === null ? '' : `${business}, `}
        Part {sale.part}
        {personalWords(sale)}
        {sale.putOffCents > 0
          ? `, ${formatCentsPlain(sale.putOffCents)} of the gain put off by stock in its place`
          : ''}
        {sale.acquiredDay && sale.soldDay
          ? `, from ${dayName(sale.acquiredDay as Day)} to ${dayName(sale.soldDay as Day)}`
          : ', taken as held long enough and without cost'}
      </span>
    </th>
    {[
      sale.priceCents,
      sale.costCents,
      sale.deductedCents,
      sale.gainCents,
      sale.ordinaryCents,
      sale.section1231Cents,
    ].map((amount) => (
      <td class="number">{formatCentsPlain(amount)}</td>
    ))}
  </tr>
)
