// The Year pack's first page: what is open, and a line a sheet with what it comes to; each sheet has its own address.
import type { Child } from 'hono/jsx'
import { dayName } from '#calendar/day.ts'
import type { YearPackFigures } from '#today/year-pack/figures.ts'
import { PageTitle } from '../../layout.tsx'
import { Button, ButtonRow, LinkButton } from '../../parts/button.tsx'
import { Select } from '../../parts/field.tsx'
import { Caution, EmptyState, Part } from '../../parts/message.tsx'
import { SideWord } from '../../parts/side.tsx'
import type { Sheet } from './sheet.ts'
import { packSheets } from './sheets.tsx'

export interface PackAddresses {
  /** Of the pack's page with an ending like `/print`. */
  page(ending: string): string
  /** Of a table as CSV. */
  csv(table: string): string
}

interface ContentsProps {
  figures: YearPackFigures
  addresses: PackAddresses
  /** What stands below: the closing of the year. */
  children?: Child
}

export const PackContents = ({ figures, addresses, children }: ContentsProps) => (
  <>
    <PageTitle
      help="yearPack"
      purpose="The year’s papers: statements of each side and of all together, the farm’s forms and measures, and a tax worksheet."
    >
      Year pack {figures.year}
    </PageTitle>
    <p class="pack-answer">
      <Part of={() => <Answer figures={figures} />} />
    </p>
    <Caution askWhom="a licensed tax preparer or your lender">
      These papers are only as good as the entries behind them.
    </Caution>
    <Choice figures={figures} />
    <div class="pack-split">
      <ContentsTable figures={figures} addresses={addresses} />
      <Part of={() => <BeforeYouPrint figures={figures} addresses={addresses} />} />
    </div>
    <ThroughTheYear year={figures.year} />
    {children}
  </>
)

/** What is entered in a year before its papers are: also in one of which the books have nothing yet. */
const ThroughTheYear = ({ year }: { year?: number }) => (
  <p class="no-print">
    Through the year: <a href="/year-pack/pay">Pay a worker</a> ·{' '}
    <a href={`/year-pack/people${year === undefined ? '' : `?year=${year}`}`}>
      People and payees{year === undefined ? '' : ` of ${year}`}
    </a>
  </p>
)

export const EmptyPack = ({ knowsPeople }: { knowsPeople: boolean }) => (
  <>
    <PageTitle purpose="The year’s papers, printed from the books.">Year pack</PageTitle>
    {knowsPeople ? (
      <EmptyState href="/books/entry" action="Record an entry">
        There is nothing to print yet. Once the books hold entries, the year’s statements show here.
      </EmptyState>
    ) : (
      <EmptyState href="/start/who" action="Enter who you are">
        There is nothing to print yet. The papers begin with whose they are, and fill as the books do.
      </EmptyState>
    )}
    <ThroughTheYear />
  </>
)

/** The days that the papers hold, where these are not the whole year. */
export const daysHeld = ({ year, from, through }: YearPackFigures): string =>
  from === null && through === null
    ? `January 1 to December 31, ${year}`
    : `${from ? dayName(from) : `January 1, ${year}`} to ${through ? dayName(through) : `December 31, ${year}`}`

const Answer = ({ figures }: { figures: YearPackFigures }) => {
  const { gaps, year, from, through } = figures
  const open = gaps.length
  return (
    <>
      {through ? `The year still runs: everything here goes up to ${dayName(through)}. ` : ''}
      {from ? `The books begin on ${dayName(from)}: this is no whole year. ` : ''}
      {open === 0
        ? `The ${year} pack is ready.`
        : `The ${year} pack has ${open === 1 ? 'one open point' : `${open} open points`}; they are printed on its first sheet.`}
    </>
  )
}

const Choice = ({ figures }: { figures: YearPackFigures }) => (
  <form method="get" action="/year-pack" class="no-print">
    <div class="field-row">
      <Select
        name="year"
        label="Year"
        value={String(figures.year)}
        options={figures.years.map((year) => ({ value: String(year), label: String(year) }))}
      />
      <Select
        name="basis"
        label="Basis"
        value={figures.basis}
        options={[
          { value: 'cash', label: 'Cash' },
          { value: 'accrual', label: 'Cash with accrual adjustments' },
        ]}
      />
      <Button quiet>Show</Button>
    </div>
  </form>
)

const ContentsTable = ({ figures, addresses }: Omit<ContentsProps, 'children'>) => {
  const sheets = packSheets(figures)
  const groups = [...new Set(sheets.map(({ of }) => of))].map((of) =>
    sheets.filter((sheet) => sheet.of === of),
  )
  return (
    <section aria-labelledby="contents-title">
      <h2 id="contents-title">Contents</h2>
      <table class="pack-table pack-contents">
        <thead>
          <tr>
            <th scope="col">Sheet</th>
            <th scope="col" class="number">
              {figures.year}, dollars
            </th>
            <th scope="col" class="number">
              Table
            </th>
          </tr>
        </thead>
        {groups.map((own) => (
          <tbody>
            <tr class="pack-heading">
              <th scope="rowgroup" colspan={3}>
                <Whose of={own[0]!.of} kind={own[0]!.kind} />
              </th>
            </tr>
            {own.map((sheet) => (
              <ContentsRow sheet={sheet} addresses={addresses} />
            ))}
          </tbody>
        ))}
      </table>
    </section>
  )
}

const Whose = ({ of, kind }: { of: string; kind: Sheet['kind'] }) =>
  kind === 'together' ? of : <SideWord kind={kind}>{of}</SideWord>

const ContentsRow = ({ sheet, addresses }: { sheet: Sheet; addresses: PackAddresses }) => (
  <tr>
    <th scope="row">
      <a href={addresses.page(`/sheets/${sheet.id}`)}>{sheet.title}</a>
      <Part of={() => <span class="pack-note"> {sheet.total().says}</span>} />
    </th>
    <td class="number">
      <Part of={() => <>{sheet.total().amount}</>} />
    </td>
    <td class="number">
      <a href={addresses.csv(sheet.id)}>
        <span class="hidden-text">
          {sheet.title}, {sheet.of}, as{' '}
        </span>
        CSV
      </a>
    </td>
  </tr>
)

const BeforeYouPrint = ({ figures, addresses }: Omit<ContentsProps, 'children'>) => (
  <section aria-labelledby="gaps-title">
    <h2 id="gaps-title">Before you print</h2>
    {figures.gaps.length === 0 ? <p>Nothing is open.</p> : null}
    <ul class="pack-open">
      {figures.gaps.map((gap) => (
        <li>
          {gap.action ? (
            <>
              {gap.says}{' '}
              <LinkButton href={gap.href} quiet>
                {gap.action}
              </LinkButton>
            </>
          ) : (
            <a href={gap.href}>{gap.says}</a>
          )}
        </li>
      ))}
    </ul>
    <ButtonRow>
      <LinkButton href={addresses.page('/print')}>Look at all sheets, to print</LinkButton>
      <LinkButton href={addresses.page('/folder')} quiet>
        Folder to hand over
      </LinkButton>
      <LinkButton href={`/year-pack/inputs?year=${figures.year}`} quiet>
        Enter year-end values
      </LinkButton>
    </ButtonRow>
  </section>
)
