// The pack as it prints: a cover with contents and open points, then sheet after sheet, each headed with whose it is and of which days.
import type { Child } from 'hono/jsx'
import { type Day, dayName } from '#calendar/day.ts'
import type { YearPackFigures } from '#today/year-pack/figures.ts'
import { PrintButton } from '../../parts/button.tsx'
import { Part } from '../../parts/message.tsx'
import { daysHeld, type PackAddresses } from './contents.tsx'
import type { Sheet } from './sheet.ts'
import { packSheets } from './sheets.tsx'
import { leftOutWords } from './told-sides.ts'

interface PaperProps {
  figures: YearPackFigures
  addresses: PackAddresses
  madeOn: Day
}

export const PackPaper = ({ figures, addresses, madeOn }: PaperProps) => {
  const sheets = packSheets(figures)
  return (
    <>
      <p class="no-print">
        <a href={addresses.page('')}>Back to the year pack</a>
      </p>
      <PrintButton />
      <Cover figures={figures} sheets={sheets} madeOn={madeOn} />
      {sheets.map((sheet, i) => (
        <SheetFrame figures={figures} sheet={sheet} no={i + 1}>
          <Part of={() => sheet.show('')} />
        </SheetFrame>
      ))}
      <ProvedBy end={figures.chainEnd} />
    </>
  )
}

interface OneSheetProps {
  figures: YearPackFigures
  addresses: PackAddresses
  sheet: Sheet
}

/** One sheet at its own address, with the ones before and after it. */
export const OneSheet = ({ figures, addresses, sheet }: OneSheetProps) => {
  const sheets = packSheets(figures)
  const at = sheets.findIndex(({ id }) => id === sheet.id)
  const to = (other: Sheet | undefined, says: string) =>
    other ? (
      <a href={addresses.page(`/sheets/${other.id}`)}>
        {says}: {other.title}, {other.of}
      </a>
    ) : null
  return (
    <>
      {/* What is seen and printed is the sheet's own head, one of many on the paper of all. */}
      <h1 class="hidden-text">{`${sheet.title}, ${sheet.of}, ${figures.year}`}</h1>
      <nav class="pack-turn no-print" aria-label="Sheets">
        <a href={addresses.page('')}>Year pack {figures.year}</a>
        {to(sheets[at - 1], 'Before')}
        {to(sheets[at + 1], 'Next')}
        <PrintButton />
      </nav>
      <SheetFrame figures={figures} sheet={sheet} no={at + 1}>
        <Part of={() => sheet.show(addresses.csv(sheet.id))} />
      </SheetFrame>
    </>
  )
}

const SheetFrame = ({
  figures,
  sheet,
  no,
  children,
}: {
  figures: YearPackFigures
  sheet: Sheet
  no: number
  children: Child
}) => (
  <div class="pack-paper">
    {/* Repeated by the printer where a sheet runs over a page. */}
    <div class="sheet-head">
      <p class="sheet-of">
        <span>
          <b>{sheet.of}</b>, {figures.basis === 'cash' ? 'cash basis' : 'cash basis with accrual adjustments'}
          , {daysHeld(figures)}
          {figures.from || figures.through ? ' (part of a year)' : ''}
        </span>
        <span>
          Year pack {figures.year}, sheet {no}: {sheet.title}
        </span>
      </p>
    </div>
    {children}
  </div>
)

const Cover = ({
  figures,
  sheets,
  madeOn,
}: {
  figures: YearPackFigures
  sheets: readonly Sheet[]
  madeOn: Day
}) => (
  <section class="pack-cover" aria-labelledby="cover-title">
    <p class="sheet-of">
      <b>{(figures.sides.find(({ kind }) => kind === 'farm') ?? figures.sides[0])?.name}</b>
      <span>{figures.people.join(', ')}</span>
    </p>
    <h1 id="cover-title">Year pack {figures.year}</h1>
    <p>
      Books of {figures.sides.map(({ name }) => name).join(', ')}, {daysHeld(figures)}
      {figures.from || figures.through ? ', which is part of a year' : ''}.{' '}
      {figures.basis === 'cash' ? 'Cash basis.' : 'Cash basis with accrual adjustments.'} Made on{' '}
      {dayName(madeOn)}.{leftOutWords(figures)}
    </p>
    <Part of={() => <OpenPoints figures={figures} />} />
    <table class="pack-table pack-cover-contents">
      <thead>
        <tr>
          <th scope="col">Sheet</th>
          <th scope="col" class="number">
            Amount
          </th>
          <th scope="col" class="number">
            No.
          </th>
        </tr>
      </thead>
      <tbody>
        {sheets.map((sheet, i) => (
          <tr>
            <th scope="row">
              {sheet.title}, {sheet.of}
              <Part of={() => <span class="pack-note"> {sheet.total().says}</span>} />
            </th>
            <td class="number">
              <Part of={() => <>{sheet.total().amount}</>} />
            </td>
            <td class="number">{i + 1}</td>
          </tr>
        ))}
      </tbody>
    </table>
    <p class="pack-sign">
      <span>Prepared by</span>
      <span>Date</span>
      <span>Checked by</span>
    </p>
    <p class="source">
      From the books: estimates, not advice, and only as good as the entries behind them. Check with a
      licensed tax preparer or your lender before you act on them. Amounts in dollars.
    </p>
  </section>
)

const OpenPoints = ({ figures: { gaps } }: { figures: YearPackFigures }) => (
  <>
    <h2>Open points</h2>
    {gaps.length === 0 ? (
      <p>None: all transactions are sorted, and what the sheets need was entered.</p>
    ) : (
      <ol class="pack-list">
        {gaps.map(({ says }) => (
          <li>{says}</li>
        ))}
      </ol>
    )}
  </>
)

const ProvedBy = ({ end }: { end: string | null }) =>
  end === null ? null : (
    <section aria-labelledby="proved-title" class="pack-part">
      <h2 id="proved-title">What these papers rest on</h2>
      <p>
        Every change in the books is proved by the ones before it; when this was printed they ended at{' '}
        <code>{end}</code>. Later <code>npm run dooryard -- verify --end "{end}"</code> tells whether all of
        it is still there, unchanged.
      </p>
    </section>
  )
