// Tax so far this year: what should lie aside, from the books' Schedule F lines, and when it falls due.
import { type Day, dayName } from '#calendar/day.ts'
import { formatDollars } from '#money/format.ts'
import { allOf } from '#money/lists.ts'
import { aheadByBooks } from '#rules/due/ahead-words.ts'
import type { TaxSoFarFigures } from '#today/cover/figures.ts'
import { Figure, Figures } from '../parts/figure.tsx'

export const TaxSoFar = ({ tax }: { tax: TaxSoFarFigures }) => (
  <section aria-label={`Tax so far, ${tax.year}`} id="tax-so-far">
    <p class="answer">
      Set aside <strong>{formatDollars(tax.setAside)}</strong> for the tax of {tax.year} so far.
    </p>
    <Figures>
      <SetAside tax={tax} />
      <Figure
        label="Farm profit so far"
        value={formatDollars(tax.farmProfit)}
        note={`In the books to ${tax.through}${tax.withEarlier ? ', and what you entered for the months before them' : ''}`}
        madeOf={{
          says: 'Schedule F line 34: income of the farm’s lines less its costs, as booked. Depreciation is the schedule’s of the Year pack, or what is booked where nothing is listed there.',
          rows: [
            { label: 'Gross farm income, line 9', value: formatDollars(tax.farmGross) },
            { label: 'Farm costs, line 33', value: formatDollars(-tax.farmExpenses) },
            { label: 'Net farm profit, line 34', value: formatDollars(tax.farmProfit), isTotal: true },
          ],
          more: { text: 'The lines themselves in the Year pack', href: '/year-pack' },
        }}
      />
    </Figures>
    <ul>
      {tax.dates.map((date) => (
        <li>
          {dayName(date.day as Day)}: {date.says}
          {aheadByBooks(date.stillAhead)}
        </li>
      ))}
    </ul>
    <p class="figure-note">
      {tax.isFarmer
        ? 'Two thirds or more of gross income is from farming, this year or last: the farmers’ due dates apply.'
        : 'Less than two thirds of gross income is from farming, this year and last: estimated tax is due in quarters.'}{' '}
      This is by the books; a year before them is as the plan says it, under Tax.
    </p>
  </section>
)

/** So that nobody sets aside what comes back without a word of it: one sentence, by the worksheet of the year. */
const comesBackSays = ({ comesBack, state }: TaxSoFarFigures): string | null => {
  const parts = [
    { dollars: comesBack.federal, of: 'federal', says: 'federal' },
    { dollars: comesBack.state, of: state?.name ?? 'state', says: `from ${state?.name ?? 'the state'}` },
    { dollars: comesBack.local, of: 'local', says: 'from your local office' },
  ].filter(({ dollars }) => dollars >= 0.5)
  const [first, ...more] = parts
  if (!first) return null
  const sum = formatDollars(parts.reduce((all, { dollars }) => all + dollars, 0))
  const each = parts.map(
    ({ dollars, says }, at) => `${formatDollars(dollars)} ${at === 0 ? 'of it ' : ''}${says}`,
  )
  return more.length === 0
    ? `By the worksheet about ${sum} comes back with the ${first.of} return: not taken off here, since it comes only then`
    : `By the worksheet about ${sum} comes back with the returns, ${allOf(each)}: not taken off here, since it comes only then`
}

export const SetAside = ({ tax }: { tax: TaxSoFarFigures }) => (
  <Figure
    label="Set aside for tax"
    value={formatDollars(tax.setAside)}
    note={
      comesBackSays(tax) ??
      (tax.mayComeBack > 0
        ? `Refundable credits, about ${formatDollars(tax.mayComeBack)}, are left out: they come back with the return`
        : `${tax.state === null ? 'Federal' : 'Federal and state'}, on what came in to ${tax.through}`)
    }
    madeOf={{
      says: `${tax.state === null ? 'Federal tax' : 'Federal and state tax'} as if ${tax.year} had ended on ${tax.through}, by the books and the people of the plan. Premium credit that comes back${tax.state === null ? ' and state tax are' : ' is'} not in it; credit that must be paid back is. Payments before May count toward last year’s tax first. Any balance still due for last year is included.`,
      rows: [
        { label: 'Farm profit so far', value: formatDollars(tax.farmProfit) },
        { label: 'Side ventures', value: formatDollars(tax.otherSelfEmployment) },
        { label: 'Pay', value: formatDollars(tax.wages) },
        { label: 'Interest and dividends', value: formatDollars(tax.interest) },
        ...tax.besides.map(({ label, dollars }) => ({ label, value: formatDollars(dollars) })),
        { label: 'Breeding stock and equipment sold', value: formatDollars(tax.stockSold) },
        { label: 'Self-employment tax', value: formatDollars(tax.selfEmploymentTax) },
        { label: 'Income tax after credits', value: formatDollars(tax.incomeTax) },
        { label: 'Paid for this year', value: formatDollars(-tax.paid) },
        ...(tax.state === null
          ? []
          : [
              { label: `${tax.state.name} income tax`, value: formatDollars(tax.state.tax) },
              { label: 'Paid of it', value: formatDollars(-tax.state.paid) },
            ]),
        ...(tax.owedForLastYear === null
          ? []
          : [{ label: `Still owed for ${tax.year - 1}`, value: formatDollars(tax.owedForLastYear) }]),
        { label: 'Set aside', value: formatDollars(tax.setAside), isTotal: true },
      ],
      source: {
        text: 'Form 1040, Schedules F and SE; rates and thresholds under Sources in Settings',
        href: '/settings/sources',
      },
    }}
  />
)
